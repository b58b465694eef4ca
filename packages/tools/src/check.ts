// npm run check: types of every package, lint and format of every file.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { projectRoot } from './paths.ts';

const TYPES = [
  'packages/domain',
  'packages/domain/tsconfig.pure.json',
  'packages/contract',
  'packages/tools',
  'apps/api',
  'apps/board',
  'apps/board/service-worker',
  '.',
];

type Outcome = { what: string; code: number | null; output: string };

function run(what: string, args: readonly string[]): Promise<Outcome> {
  return new Promise((resolve) => {
    const child = spawn(join(projectRoot, 'node_modules/.bin', args[0] ?? ''), args.slice(1), { cwd: projectRoot });
    let output = '';
    const collect = (chunk: Buffer) => {
      output += chunk;
    };
    child.stdout.on('data', collect);
    child.stderr.on('data', collect);
    child.on('close', (code) => resolve({ what, code, output }));
  });
}

const outcomes = [await run('lint and format', ['biome', 'check', '--error-on-warnings', '.'])];
for (const project of TYPES) outcomes.push(await run(`types of ${project}`, ['tsc', '-p', project]));
for (const { what, code, output } of outcomes) {
  console.log(`${code === 0 ? 'ok    ' : 'FAILED'} ${what}`);
  if (code !== 0) console.log(output);
}
process.exitCode = outcomes.every(({ code }) => code === 0) ? 0 : 1;
