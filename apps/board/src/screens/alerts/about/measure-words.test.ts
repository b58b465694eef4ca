import { expect, it } from 'vitest';
import { countOf, hoursOf, percentOf, rateOf } from './measure-words.ts';

it('says counts, shares, rates and hours, and never a zero for what is none', () => {
  expect([countOf(1, 'alert'), countOf(1234, 'alert')]).toEqual(['1 alert', '1,234 alerts']);
  expect(percentOf(null)).toBeNull();
  expect(percentOf({ count: 0, of: 9, percent: 0 })).toBe('0 %');
  expect(percentOf({ count: 1, of: 900, percent: 100 / 900 })).toBe('under 1 %');
  expect([0, 0.004, 0.038, 1.26].map(rateOf)).toEqual(['0', 'under 0.01', '0.04', '1.3']);
  expect([90, 60_000].map(hoursOf)).toEqual(['1.5 h', '1,000 h']);
});
