// Documents name the tests that prove what they say: `file` "title" "title". They are believed only while those are there.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';

/** A test file as a document names it, from `tests/` or from the root, with the titles named after it. */
export type NamedTests = { file: string; titles: string[] };

/** The tests that a piece of text names. */
export const namedTests = (text: string): NamedTests[] =>
  [...text.matchAll(/`([^`]+)`((?: "[^"]+")*)/g)].map(([, file = '', titles = '']) => ({
    file,
    titles: [...titles.matchAll(/"([^"]+)"/g)].map(([, title = '']) => title),
  }));

/** What of it is not there, in words. */
export const missingTests = ({ file, titles }: NamedTests): string[] => {
  const path = pathOf(file);
  if (path === undefined || !file.endsWith('.test.ts')) return [`${file} is no test file`];
  const code = codeOf(path);
  return titles.filter((title) => !hasTitle(code, title)).map((title) => `${file} has no "${title}"`);
};

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
