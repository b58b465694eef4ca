import { spawn } from 'node:child_process';

/** Runs one test file for as long as its settings say, and ends as it ends. */
export function runLong(file: string, settings: Readonly<Record<string, string>>): void {
  const args = ['node_modules/vitest/vitest.mjs', 'run', '--project', 'api', file];
  const run = spawn(process.execPath, args, { stdio: 'inherit', env: { ...settings, ...process.env } });
  run.on('close', (code) => {
    process.exitCode = code ?? 1;
  });
}
