// What the repository promises about itself.
import { execFileSync } from 'node:child_process';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';
import { sourceFiles, withoutComments } from '../support/source-files.ts';

const FOLDERS = ['apps', 'packages', 'tests'];

const kept = execFileSync('git', ['ls-files', '-z'], { cwd: projectRoot, encoding: 'utf8' })
  .split('\0')
  .filter(Boolean);

test('at the top stands only what belongs there', () => {
  const top = new Set(kept.map((path) => path.split('/')[0] ?? ''));
  const allowed = [
    '.ci',
    '.gitattributes',
    '.gitignore',
    '.npmrc',
    'DEVELOPERS.md',
    'LICENSE',
    'README.md',
    'apps',
    'biome.json',
    'docker-compose.yml',
    'package-lock.json',
    'package.json',
    'packages',
    'prisma',
    'shared',
    'tests',
    'tsconfig.json',
    'vitest.config.ts',
  ];
  expect([...top].filter((name) => !allowed.includes(name))).toEqual([]);
});

test('nothing that is made or secret is kept', () => {
  const made = /(^|\/)(node_modules|dist|generated|\.data)\/|\.(log|pem|key|env|backup|partial)$|(^|\/)\.env/;
  expect(kept.filter((path) => made.test(path))).toEqual([]);
});

test('no test is left out, alone or commented away', () => {
  const left = FOLDERS.flatMap(sourceFiles)
    .filter(({ isTest }) => isTest)
    .filter(({ text }) =>
      /\b(test|it|describe)(\.\w+)*\.(only|skip|todo|fails|skipIf|runIf)\b|\bx(it|test|describe)\(/.test(
        withoutComments(text),
      ),
    );
  expect(left.map(({ path }) => path)).toEqual([]);
});

test('every relative import carries its ending, as Node wants it', () => {
  const bare = FOLDERS.flatMap(sourceFiles).filter(({ text }) =>
    /from '\.{1,2}\/[^']*(?<!\.(ts|tsx|mjs|css|json))'/.test(withoutComments(text)),
  );
  expect(bare.map(({ path }) => path)).toEqual([]);
});

test('every version is exact', () => {
  const packages = kept.filter((path) => path.endsWith('package.json'));
  expect(packages.length).toBeGreaterThan(4);
  for (const path of packages) {
    const text = execFileSync('git', ['show', `:${path}`], { cwd: projectRoot, encoding: 'utf8' });
    const { dependencies = {}, devDependencies = {}, optionalDependencies = {} } = JSON.parse(text);
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies, ...optionalDependencies })) {
      expect(`${path} ${name} ${version}`).toMatch(/ \d+\.\d+\.\d+\S*$/);
    }
  }
});
