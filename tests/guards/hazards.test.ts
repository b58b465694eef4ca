// shared/safety/hazards.md says which test proves which control. A control without its test is a wish.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';
import { missingTests, namedTests } from '../support/named-tests.ts';

const text = readFileSync(join(projectRoot, 'shared/safety/hazards.md'), 'utf8');

const PARTS = ['Causes.', 'In the tool', 'In the ward.', 'Remains.', 'Decides.'];

/** The hazards, each from its heading to the next: `### H1. Title`. */
const hazards = text
  .split(/^(?=#{2,3} )/m)
  .filter((section) => section.startsWith('### '))
  .map((section) => {
    const [heading = '', ...lines] = section.split('\n');
    const parts = section.split(/^\*\*/m).slice(1);
    return {
      heading,
      id: /^### (H\d+)\. \S/.exec(heading)?.[1],
      named: parts.map((part) => part.slice(0, part.indexOf('**'))),
      empty: parts.filter((part) => part.slice(part.indexOf('**') + 2).trim() === ''),
      controls: lines.filter((line) => line.startsWith('- ')),
    };
  });

test('every hazard has an id of its own, and says causes, controls, what remains and who decides', () => {
  expect(hazards.length).toBeGreaterThan(20);
  expect(hazards.map(({ id }) => id)).toEqual(hazards.map((_, index) => `H${index + 1}`));
  for (const { heading, named, empty } of hazards)
    expect({ heading, named, empty }).toEqual({ heading, named: PARTS, empty: [] });
});

test('every hazard has a control, and every control a test that is named by file and title', () => {
  expect(hazards.filter(({ controls }) => controls.length === 0).map(({ heading }) => heading)).toEqual([]);
  const loose = hazards
    .flatMap(({ controls }) => controls)
    .filter((control) => {
      const tests = namedTests(control);
      return tests.length === 0 || tests.some(({ titles }) => titles.length === 0);
    });
  expect(loose).toEqual([]);
});

test('every test that proves a control is there', () => {
  expect(namedTests(text).filter(({ titles }) => titles.length > 0).length).toBeGreaterThan(60);
  const missing = hazards.flatMap(({ controls }) => controls.flatMap(namedTests).flatMap(missingTests));
  expect(missing).toEqual([]);
});

test('no compliance is claimed, it is no medical device, and local policy comes first', () => {
  const said = text.slice(0, text.indexOf('\n## ')).replaceAll('\n', ' ');
  expect(said).toMatch(/No compliance with any standard is claimed/);
  expect(said).toMatch(/not a medical device/);
  expect(said).toMatch(/Local policy comes first/);
});
