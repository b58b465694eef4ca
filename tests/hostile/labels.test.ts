import { expect, it } from 'vitest';
import { readRandomLabels } from '../support/random-labels.ts';

it('100,000 random strings into the label reader: none throws, none gets a wrong century', () => {
  const { wrong, labels, dates, productCodes } = readRandomLabels(100_000, 20261125);
  expect(wrong).toEqual([]);
  // the strings come deep enough for that to mean something
  expect(labels).toBeGreaterThan(100);
  expect(dates).toBeGreaterThan(100);
  expect(productCodes).toBeGreaterThan(0);
});
