import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, onTestFinished, test } from 'vitest';

const LOADER = 'error while loading shared libraries: libatomic.so.1: cannot open shared object file';

test('says which package is missing where the pinned Node does not run', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'slackwater-prepare-'));
  onTestFinished(() => rm(folder, { recursive: true }));
  const put = async (path: string, text: string, mode = 0o644) => {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), text, { mode });
  };
  const program = await readFile(join(projectRoot, 'packages/tools/prepare.mjs'), 'utf8');
  const platform = `${process.platform}-${process.arch}`;
  const [, pinned] = new RegExp(`'${platform}': '(.+)'`).exec(program)!;
  const installed = createHash('sha256').update('package-lock.json').update('{}').digest('hex');
  await put('package-lock.json', '{}');
  await put('node_modules/.cache/prepare/install', installed + platform);
  await put(`node_modules/${pinned}`, `#!/bin/sh\necho '${LOADER}' >&2\nexit 127\n`, 0o755);
  await put('packages/tools/prepare.mjs', program);

  const run = spawnSync(process.execPath, [join(folder, 'packages/tools/prepare.mjs')], { encoding: 'utf8' });
  expect(run.stderr).toContain(LOADER);
  expect(run.stderr).toContain('apt-get install libatomic1');
  expect(run.status).toBe(1);
});
