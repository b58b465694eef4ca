import { expect, it } from 'vitest';
import { waitAfter } from './attempts.ts';

it('lets four failures pass, then doubles the wait up to a quarter of an hour', () => {
  expect([0, 1, 4].map(waitAfter)).toEqual([0, 0, 0]);
  expect([5, 6, 7, 8].map(waitAfter)).toEqual([2, 4, 8, 16]);
  expect([14, 20, 5_000].map(waitAfter)).toEqual([900, 900, 900]);
});
