import { spawn } from 'node:child_process';

/** Runs test files of one project for as long as their settings say, and ends as they end. */
export function runLong(project: string, files: readonly string[], settings: Readonly<Record<string, string>>): void {
  const args = ['node_modules/vitest/vitest.mjs', 'run', '--project', project, ...files];
  const run = spawn(process.execPath, args, { stdio: 'inherit', env: { ...settings, ...process.env } });
  run.on('close', (code) => {
    process.exitCode = code ?? 1;
  });
}
