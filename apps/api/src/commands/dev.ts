// npm run dev: the API with restart on change, the board with hot reload in front of it. One Ctrl-C ends both.
import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { readConfig } from '../config.ts';

const { port } = readConfig(process.env);
const children: ChildProcess[] = [];

function run(args: readonly string[]): void {
  // the board's development server passes /api on to this address
  const env = { ...process.env, SLACKWATER_API: `http://127.0.0.1:${port}` };
  const child = spawn(process.execPath, args, { stdio: 'inherit', cwd: projectRoot, env });
  children.push(child);
  child.on('exit', (code) => {
    for (const other of children) other.kill('SIGTERM');
    process.exitCode ??= code ?? 0;
  });
}

for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.on(signal, () => {
    for (const child of children) child.kill(signal);
  });
}

run(['--watch-path=apps/api/src', '--watch-path=packages', join('apps/api/src/server.ts')]);
run([join('node_modules/vite/bin/vite.js'), 'apps/board']);
