// tests/README.md says which test holds which promise. It is believed only as long as those tests are there.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';

type Held = { promise: string; tests: { file: string; titles: string[] }[] };

const readme = readFileSync(join(projectRoot, 'tests/README.md'), 'utf8');

/** The rows of the tables of promises: `| promise | \`file\` "title" "title", \`file\` "title" |`. */
const promises: Held[] = readme
  .split('\n\n')
  .filter((block) => block.startsWith('| promise | held by |'))
  .flatMap((table) => table.trim().split('\n').slice(2))
  .map((row) => {
    const [promise = '', heldBy = ''] = row.slice(2, -2).split(' | ');
    const tests = [...heldBy.matchAll(/`([^`]+)`((?: "[^"]+")*)/g)].map(([, file = '', titles = '']) => ({
      file,
      titles: [...titles.matchAll(/"([^"]+)"/g)].map(([, title = '']) => title),
    }));
    return { promise, tests };
  });

/** A file is named from here, or from the root of the project. */
const pathOf = (file: string) =>
  [join(projectRoot, 'tests', file), join(projectRoot, file)].find((path) => existsSync(path));

/** The lines of a test file that are no comment. */
const codeOf = (path: string): string =>
  readFileSync(path, 'utf8')
    .split('\n')
    .filter((line) => !/^\s*(\/\/|\/\*|\*)/.test(line))
    .join('\n');

/** Whether the title is the first argument of a call: of `test`, `it` or `describe`, or of what `each` gave. */
const hasTitle = (code: string, title: string): boolean =>
  new RegExp(`\\(\\s*(['"\`])${RegExp.escape(title)}\\1`).test(code);

test('every promise is held by a test that is named by file and title', () => {
  expect(promises.length).toBeGreaterThan(100);
  const loose = promises.filter(({ tests }) => tests.length === 0 || tests.some(({ titles }) => titles.length === 0));
  expect(loose.map(({ promise }) => promise)).toEqual([]);
});

test('every test that is named is there', () => {
  const missing = promises.flatMap(({ tests }) =>
    tests.flatMap(({ file, titles }) => {
      const path = pathOf(file);
      if (path === undefined || !file.endsWith('.test.ts')) return [`${file} is no test file`];
      const code = codeOf(path);
      return titles.filter((title) => !hasTitle(code, title)).map((title) => `${file} has no "${title}"`);
    }),
  );
  expect(missing).toEqual([]);
});

test('no promise stands twice, and none is both held and open', () => {
  const sentences = promises.map(({ promise }) => promise);
  expect(sentences.filter((one, index) => sentences.indexOf(one) !== index)).toEqual([]);
  const open = readme.slice(readme.indexOf('## Not yet held by a test'));
  expect(sentences.filter((one) => open.includes(one))).toEqual([]);
});
