import { describe, expect, it } from 'vitest';
import { carries, readWristband } from './wristband.ts';

describe('a wristband', () => {
  it.each([
    ['AP 204655', 'AP 204655'],
    [']C0AP 204655\r\n', 'AP 204655'],
    // 952000000000000019 with its computed check digit, GS1's prefix for demonstrations
    [']d28018952000000000000019', '952000000000000019'],
    ['(8018)952000000000000019', '952000000000000019'],
    ['', ''],
  ])('%j carries the number %j', (scanned, number) => expect(readWristband(scanned)).toBe(number));

  it('is this patient’s by the whole number alone', () => {
    expect(carries('ap204655', 'AP 204655')).toBe(true);
    expect(carries('AP 20465', 'AP 204655')).toBe(false);
    expect(carries('', '')).toBe(false);
  });
});
