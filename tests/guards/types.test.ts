// The compiler is as strict as DEVELOPERS.md says, in every package.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';

type Settings = { extends?: string; compilerOptions?: Record<string, unknown> };

const read = (path: string): Settings => JSON.parse(readFileSync(path, 'utf8'));
const STRICT = ['strict', 'noUncheckedIndexedAccess', 'exactOptionalPropertyTypes', 'erasableSyntaxOnly'];

test('every package is checked by the one strict configuration, and loosens nothing of it', () => {
  const root = join(projectRoot, 'tsconfig.json');
  for (const option of STRICT) expect(read(root).compilerOptions).toHaveProperty(option, true);
  const others = execFileSync('git', ['ls-files', '-z', '*/tsconfig*.json'], { cwd: projectRoot, encoding: 'utf8' })
    .split('\0')
    .filter(Boolean);
  expect(others.length).toBeGreaterThan(4);
  for (const path of others) {
    const settings = read(join(projectRoot, path));
    expect(join(dirname(join(projectRoot, path)), settings.extends ?? '')).toBe(root);
    for (const [option, value] of Object.entries(settings.compilerOptions ?? {})) {
      expect(`${path} ${option} ${value}`).not.toMatch(/ (strict\w*|no[A-Z]\w*|exact\w*|erasable\w*) false$/);
    }
  }
});
