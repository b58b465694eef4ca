import { describe, expect, it } from 'vitest';
import type { ExpectedBy, ExpectedOut } from './expected-out.ts';
import { comparisonWords, insideWords, mustKeep } from './words.ts';

const out = (outMl: number, by: ExpectedBy = { source: 'table', because: 'beyondModel' }): ExpectedOut => ({
  outMl,
  lowMl: outMl - 190,
  highMl: outMl + 190,
  by,
});
const night = { strength: '1.5 %', dwellMinutes: 270 };

describe('a comparison names both sides', () => {
  // Written out by hand: 1,850 − 2,000 = −150; 2,000 + 30 = 2,030 expected, 1,850 − 2,030 = −180.
  it('less than went in and below what is usual', () => {
    expect(comparisonWords(1850, 2000, { out: out(2030), ...night })).toBe(
      '150 mL less than went in, 180 mL below what 1.5 % usually brings back in 4 h 30 min by the ward’s table, beyond the model.',
    );
  });
  it('as much as went in', () => {
    expect(comparisonWords(2000, 2000, { out: out(2000), ...night })).toBe(
      'As much as went in, as what 1.5 % usually brings back in 4 h 30 min by the ward’s table, beyond the model.',
    );
  });
  // 2,130 − 2,000 = 130; 2,130 − 2,180 = −50.
  it('names the patient’s own dwells', () => {
    const expected = { out: out(2180, { source: 'dwells', drains: 23 }), ...night };
    expect(comparisonWords(2130, 2000, expected)).toBe(
      '130 mL more than went in, 50 mL below the 2,180 mL expected from 23 earlier dwells.',
    );
  });
  it('says when nothing is expected', () => {
    expect(comparisonWords(2400, 2000, null)).toBe('400 mL more than went in. What is expected is not known.');
  });
});

describe('what is probably inside', () => {
  // Clinical reference §1, check values: 3.86 %, drained 2,050: by the flow 607, by the book 950.
  it('is two figures where they are over 200 mL apart, else one', () => {
    expect(insideWords({ flowMl: 607, bookMl: 950, flowVarianceMl2: 1 })).toBe(
      'by the flow about 610, by the book about 950 mL',
    );
    expect(insideWords({ flowMl: 200, bookMl: 200, flowVarianceMl2: 1 })).toBe('about 200 mL');
  });
  it('is not known rather than zero', () => {
    expect(insideWords({ flowMl: null, bookMl: null, flowVarianceMl2: null })).toBe('not known');
  });
});

// Clinical reference §2: cloudy, milky, brown, green ask for a sample; fibrin alone does not.
describe('a bag that is kept', () => {
  it('cloudy, milky, brown or green', () => {
    expect(mustKeep(['pink', 'cloudy'])).toBe(true);
    expect(mustKeep(['green'])).toBe(true);
    expect(mustKeep(['clear'])).toBe(false);
    expect(mustKeep(['fibrin'])).toBe(false);
  });
});
