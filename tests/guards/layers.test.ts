// Arrows run one way: domain ← contract ← api; the board imports the domain, and only the types of the contract.
import { join, normalize } from 'node:path';
import { expect, test } from 'vitest';
import { importsOf, type SourceFile, sourceFiles, withoutComments } from '../support/source-files.ts';

const TEST_TOOLS = ['vitest', 'fast-check', 'jstat'];

const isRelative = (from: string) => from.startsWith('.');
const landsIn = (file: SourceFile, from: string, folder: string) =>
  normalize(join(file.path, '..', from)).startsWith(`${folder}/`);

/** The imports of a folder's files that the rule does not allow, as sentences. */
function breaches(
  folder: string,
  allows: (from: string, file: SourceFile, onlyTypes: boolean) => boolean,
): readonly string[] {
  const files = sourceFiles(folder);
  expect(files.length).toBeGreaterThan(5);
  return files.flatMap((file) =>
    importsOf(file)
      .filter(({ from, onlyTypes }) => !allows(from, file, onlyTypes))
      .map(({ from }) => `${file.path} imports ${from}`),
  );
}

test('the domain imports nothing but itself', () => {
  const found = breaches('packages/domain/src', (from, file) =>
    isRelative(from)
      ? landsIn(file, from, 'packages/domain/src')
      : (file.isTest || file.path.includes('/testing/')) && TEST_TOOLS.includes(from),
  );
  expect(found).toEqual([]);
});

test('the domain reads no clock, no chance and no machine', () => {
  const found = sourceFiles('packages/domain/src')
    .filter(({ isTest }) => !isTest)
    .filter(({ text }) =>
      /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bTemporal\.Now\b|\bprocess\.|\bconsole\.|\bcrypto\./.test(
        withoutComments(text),
      ),
    );
  expect(found.map(({ path }) => path)).toEqual([]);
});

test('the contract imports the domain and zod', () => {
  const found = breaches('packages/contract/src', (from, file) =>
    isRelative(from)
      ? landsIn(file, from, 'packages/contract/src')
      : ['@slackwater/domain', 'zod'].includes(from) || (file.isTest && TEST_TOOLS.includes(from)),
  );
  expect(found).toEqual([]);
});

test('the tools know nothing of the ward', () => {
  const found = breaches('packages/tools', (from) => !from.startsWith('@slackwater/') && !from.includes('/apps/'));
  expect(found).toEqual([]);
});

test('the server knows no screen', () => {
  const found = breaches('apps/api/src', (from) => !/^(@slackwater\/board|react|react-dom)\b|\/board\/src/.test(from));
  expect(found).toEqual([]);
});

test('the board imports the domain, types of the contract, and no server', () => {
  const found = breaches('apps/board/src', (from, file, onlyTypes) => {
    if (isRelative(from)) return landsIn(file, from, 'apps/board/src');
    if (from.startsWith('@slackwater/contract')) return onlyTypes;
    if (from.startsWith('@slackwater/')) return from.startsWith('@slackwater/domain');
    return file.isTest || !/^(node:|pg\b|fastify|zod|@prisma)/.test(from);
  });
  expect(found).toEqual([]);
});

test('ui/ of the board knows neither the API nor the stream', () => {
  const found = breaches(
    'apps/board/src/ui',
    (from, file) =>
      !from.startsWith('@slackwater/contract') &&
      !['api', 'live', 'outbox', 'screens'].some((room) => landsIn(file, from, `apps/board/src/${room}`)),
  );
  expect(found).toEqual([]);
});

test('the environment is read in one file of the server', () => {
  const readers = sourceFiles('apps/api/src').filter(
    // a process hands the whole of it to config.ts, or on to its children, and looks at nothing itself
    ({ isTest, text }) => !isTest && /(?<!\.\.\.)process\.env\b(?!\))/.test(withoutComments(text)),
  );
  expect(readers.map(({ path }) => path)).toEqual([]);
});
