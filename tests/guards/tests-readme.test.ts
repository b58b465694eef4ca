// tests/README.md says which test holds which promise. It is believed only as long as those tests are there.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';
import { missingTests, type NamedTests, namedTests } from '../support/named-tests.ts';

type Held = { promise: string; tests: NamedTests[] };

const readme = readFileSync(join(projectRoot, 'tests/README.md'), 'utf8');

/** The rows of the tables of promises: `| promise | \`file\` "title" "title", \`file\` "title" |`. */
const promises: Held[] = readme
  .split('\n\n')
  .filter((block) => block.startsWith('| promise | held by |'))
  .flatMap((table) => table.trim().split('\n').slice(2))
  .map((row) => {
    const [promise = '', heldBy = ''] = row.slice(2, -2).split(' | ');
    return { promise, tests: namedTests(heldBy) };
  });

test('every promise is held by a test that is named by file and title', () => {
  expect(promises.length).toBeGreaterThan(100);
  const loose = promises.filter(({ tests }) => tests.length === 0 || tests.some(({ titles }) => titles.length === 0));
  expect(loose.map(({ promise }) => promise)).toEqual([]);
});

test('every test that is named is there', () => {
  expect(promises.flatMap(({ tests }) => tests.flatMap(missingTests))).toEqual([]);
});

test('no promise stands twice, and none is both held and open', () => {
  const sentences = promises.map(({ promise }) => promise);
  expect(sentences.filter((one, index) => sentences.indexOf(one) !== index)).toEqual([]);
  const open = readme.slice(readme.indexOf('## Not yet held by a test'));
  expect(sentences.filter((one) => open.includes(one))).toEqual([]);
});
