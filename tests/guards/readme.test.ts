// What README.md and DEVELOPERS.md say is so.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SETTINGS } from '@slackwater/api/config';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';

const read = (file: string) => readFileSync(join(projectRoot, file), 'utf8');
const readme = read('README.md');
const developers = read('DEVELOPERS.md');
const scripts: Record<string, string> = JSON.parse(read('package.json')).scripts;

test.each([
  ['README.md', readme],
  ['DEVELOPERS.md', developers],
])('every command that %s names exists', (_, text) => {
  const named = [...text.matchAll(/\bnpm (?:run )?([a-z][a-z:]*)/g)].map((match) => match[1] ?? '');
  expect(named.length).toBeGreaterThan(5);
  expect([...new Set(named)].filter((name) => scripts[name] === undefined)).toEqual([]);
});

test('every script runs a file that exists, on the pinned Node, after preparing', () => {
  for (const [name, script] of Object.entries(scripts)) {
    if (name === 'fix') continue;
    const [prepare, run] = script.split(' && ');
    expect(`${name}: ${prepare}`).toBe(`${name}: node packages/tools/prepare.mjs`);
    expect(`${name}: ${run}`).toMatch(/: exec node_modules\/\.bin\/node \S+/);
    const file = /node_modules\/\.bin\/node (\S+)/.exec(run ?? '')?.[1] ?? '';
    expect(`${file} ${existsSync(join(projectRoot, file))}`).toBe(`${file} true`);
  }
});

test('README says every setting in the words of config.ts, and no other', () => {
  const rows = Object.entries(SETTINGS).map(
    ([name, { meaning, byDefault, misuse }]) => `| \`${name}\` | ${meaning} | ${byDefault} | ${misuse} |`,
  );
  const table = readme.slice(readme.indexOf('| setting | meaning'));
  const written = table.slice(0, table.indexOf('\n\n')).split('\n').slice(2);
  expect(written).toEqual(rows);
});

test('every file and every heading that is linked exists', () => {
  for (const text of [readme, developers, read('shared/decisions/README.md')]) {
    const folder = text === readme || text === developers ? '' : 'shared/decisions';
    for (const [, target = ''] of text.matchAll(/\]\((?!https?:)([^)]+)\)/g)) {
      const [file, heading] = target.split('#');
      if (file) expect(`${target} ${existsSync(join(projectRoot, folder, file))}`).toBe(`${target} true`);
      if (heading) expect(text.toLowerCase()).toContain(`# ${heading.replaceAll('-', ' ')}`);
    }
  }
});

test('every folder and file of the map exists', () => {
  const map = developers.slice(developers.indexOf('```'), developers.indexOf('```', developers.indexOf('```') + 3));
  let folder = '';
  const named = map.split('\n').flatMap((line) => {
    const [, indent = '', path = ''] = /^( *)([\w./-]+)(?= {2,}|$)/.exec(line) ?? [];
    if (path === '' || path.startsWith('`')) return [];
    if (indent === '') folder = path;
    return [indent === '' ? path : join(folder, path)];
  });
  expect(named.length).toBeGreaterThan(15);
  for (const path of named) expect(`${path} ${existsSync(join(projectRoot, path))}`).toBe(`${path} true`);
});

test('the job stands at the very top, the cautions before the commands', () => {
  const paragraphs = readme.split('\n\n');
  expect(paragraphs[1]).toMatch(/manual peritoneal dialysis/);
  expect(readme.indexOf('not a')).toBeLessThan(readme.indexOf('npm start'));
  expect(readme.indexOf('npm start')).toBeLessThan(readme.indexOf('npm test'));
});

test('the gate runs the test command of the README, and nothing else', () => {
  const lines = read('.ci/run')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'));
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatch(/&& exec npm test$/);
});
