import { expect, it } from 'vitest';
import { isOddWeight } from './odd-weight.ts';

// The limit of 5 kg: common practice. A full cavity against an empty one is 2 to 3 kg.
it('asks about a weight that a full cavity and a day’s fluid do not explain', () => {
  expect(isOddWeight(73.5, 63.9)).toBe(true);
  expect(isOddWeight(6.39, 63.9)).toBe(true);
  expect(isOddWeight(66.9, 63.9)).toBe(false);
  expect(isOddWeight(68.9, 63.9)).toBe(false);
});

it('has nothing to ask about the first weight', () => {
  expect(isOddWeight(73.5, null)).toBe(false);
});
