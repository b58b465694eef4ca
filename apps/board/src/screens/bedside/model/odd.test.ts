import { describe, expect, it } from 'vitest';
import { oddDrain } from './odd.ts';

// 2,000 mL of 1.36 % glucose over 4 h: expected ultrafiltration 50 mL, spread 200 mL (clinical reference §1, from memory).
const expected = { outMl: 2050, sdMl: 200 };

describe('a drain far from what is expected', () => {
  it('within three spreads is taken as it is', () => {
    expect(oddDrain(1850, expected)).toBeNull();
    expect(oddDrain(2650, expected)).toBeNull();
    expect(oddDrain(1450, expected)).toBeNull();
  });
  it('beyond three spreads is asked about', () => {
    expect(oddDrain(4200, expected)).toEqual({ because: 'spread', outMl: 2050 });
    expect(oddDrain(1240, expected)).toEqual({ because: 'spread', outMl: 2050 });
  });
  it('with one digit too few or too many is called a digit slip', () => {
    expect(oddDrain(205, expected)).toMatchObject({ because: 'digit' });
    expect(oddDrain(19800, expected)).toMatchObject({ because: 'digit' });
  });
  it('without an expectation nothing is asked', () => {
    expect(oddDrain(4200, null)).toBeNull();
  });
});
