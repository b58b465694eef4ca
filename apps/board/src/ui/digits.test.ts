import { describe, expect, it } from 'vitest';
import { readDigits } from './digits.ts';

const volume = { least: 0, most: 5000, unit: 'mL' };

// What to answer comes from the ISMP list of error-prone abbreviations and symbols: no separators that two readers
// read differently.
describe('digits typed for a volume', () => {
  it('reads digits', () => {
    expect(readDigits('2000', volume)).toEqual({ value: 2000, problem: null });
    expect(readDigits(' 0 ', volume)).toEqual({ value: 0, problem: null });
  });

  it.each(['2,000', '2.000', '2 000', '2e3'])('answers %s with what to write', (typed) => {
    expect(readDigits(typed, volume)).toEqual({ value: null, problem: `“${typed}”: write 2000.` });
  });

  it('names the value and the range when it is impossible', () => {
    expect(readDigits('20000', volume).problem).toBe('20,000 mL is not possible here: 0 to 5,000 mL.');
  });

  it.each(['-5', '1.5', 'two', '0x10', '1e99'])('refuses %s', (typed) => {
    const read = readDigits(typed, volume);
    expect(read.value).toBeNull();
    expect(read.problem).toContain(typed);
  });

  it('says nothing while nothing is typed: missing is not zero', () => {
    expect(readDigits('', volume)).toEqual({ value: null, problem: null });
  });
});
