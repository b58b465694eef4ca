import { describe, expect, it } from 'vitest';
import { readDecimal } from './read-decimal.ts';

// Typed range of a weight: 1 to 350 kg (clinical reference §1).
const weight = { least: 1, most: 350, unit: 'kg' };

describe('a typed weight', () => {
  it('may carry a point', () => {
    expect(readDecimal('69.9', weight)).toEqual({ value: 69.9, problem: null });
    expect(readDecimal('70', weight)).toEqual({ value: 70, problem: null });
    expect(readDecimal('', weight)).toEqual({ value: null, problem: null });
  });
  it('with a comma is answered with the point, never guessed', () => {
    expect(readDecimal('69,9', weight).problem).toBe('“69,9”: write 69.9.');
  });
  it.each(['1e3', '-70', 'seventy', '7.', '.5'])('%s is no number', (text) => {
    expect(readDecimal(text, weight).value).toBeNull();
  });
  it('out of range names the value and the range', () => {
    expect(readDecimal('699', weight).problem).toBe('699 kg is not possible here: 1 to 350 kg.');
  });
});
