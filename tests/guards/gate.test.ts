// What a run of tests tells the shell and its reader: an exit code and, last, one line of counts.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';

/** Runs a few tests with the project's own reporter, in a folder that knows nothing else of the project. */
function runOf(tests: string): { code: number | null; lastLine: string | undefined } {
  const folder = mkdtempSync(join(tmpdir(), 'slackwater-gate-'));
  try {
    const reporter = join(projectRoot, 'tests/support/counts.ts');
    const config = { test: { globals: true, reporters: [reporter] } };
    writeFileSync(join(folder, 'vitest.config.mjs'), `export default ${JSON.stringify(config)};`);
    writeFileSync(join(folder, 'few.test.js'), tests);
    const vitest = join(projectRoot, 'node_modules/vitest/vitest.mjs');
    const { status, stdout } = spawnSync(process.execPath, [vitest, 'run', '--root', folder], { encoding: 'utf8' });
    return { code: status, lastLine: stdout.trimEnd().split('\n').at(-1) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test('ends with the counts on a line of their own, and keeps the exit code', () => {
  expect(runOf("test('holds', () => {});")).toEqual({ code: 0, lastLine: '1 passed, 0 failed' });
  const failing = "test('holds', () => {}); test('breaks', () => { throw new Error('broken'); });";
  expect(runOf(failing)).toEqual({ code: 1, lastLine: '1 passed, 1 failed' });
  expect(runOf("throw new Error('no test was even found');")).toEqual({ code: 1, lastLine: '0 passed, 1 failed' });
}, 60_000);
