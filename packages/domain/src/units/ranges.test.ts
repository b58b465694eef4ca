import { describe, expect, it } from 'vitest';
import { checkDate, dayNumber, isoDate, monthsOf } from './dates.ts';
import { checkNumber, ofPart, rangeWords } from './ranges.ts';

const GLUCOSE = { least: 0.5, most: 60, unit: 'mmol/L' };

describe('checkNumber', () => {
  it('lets both ends through and nothing beyond', () => {
    expect(checkNumber('glucose', 0.5, GLUCOSE)).toEqual([]);
    expect(checkNumber('glucose', 60, GLUCOSE)).toEqual([]);
    expect(checkNumber('glucose', 60.01, GLUCOSE)).toMatchObject([{ code: 'out-of-range', value: 60.01 }]);
  });

  it('names field, value and allowed range, in the message too', () => {
    expect(checkNumber('glucose', 600, GLUCOSE)).toEqual([
      {
        code: 'out-of-range',
        field: 'glucose',
        value: 600,
        allowed: '0.5 to 60 mmol/L',
        message: 'glucose is 600; allowed: 0.5 to 60 mmol/L',
      },
    ]);
  });

  it('tells missing from not a number, and takes neither for zero', () => {
    for (const missing of [null, undefined]) expect(checkNumber('x', missing, GLUCOSE)[0]!.code).toBe('missing');
    for (const odd of ['5', Number.NaN, Number.POSITIVE_INFINITY, {}, true]) {
      expect(checkNumber('x', odd, GLUCOSE)[0]!.code).toBe('not-a-number');
    }
  });

  it('refuses zero for a divisor and fractions for a count', () => {
    expect(checkNumber('plasma', 0, { least: 0, most: 9, unit: '', moreThanLeast: true })).toHaveLength(1);
    expect(checkNumber('count', 1.5, { least: 0, most: 9, unit: '', whole: true })[0]!.code).toBe('not-whole');
  });

  it('says the range in words', () => {
    expect(rangeWords({ least: 0, most: 150, unit: 'L', moreThanLeast: true })).toBe('more than 0 and at most 150 L');
    expect(rangeWords({ least: 0, most: 24, unit: '', whole: true })).toBe('whole, 0 to 24');
    expect(rangeWords({ least: 0, most: Number.POSITIVE_INFINITY, unit: 'days', moreThanLeast: true })).toBe(
      'more than 0 days',
    );
  });

  it('names the part that a number belongs to', () => {
    const [problem] = ofPart('plasma', checkNumber('ureaMmolPerL', null, GLUCOSE));
    expect(problem).toMatchObject({ field: 'plasma.ureaMmolPerL' });
    expect(problem!.message).toContain('plasma.ureaMmolPerL is missing');
  });
});

describe('days of the calendar', () => {
  it('knows which days exist', () => {
    expect(checkDate('on', '2028-02-29')).toEqual([]);
    for (const odd of ['2026-02-29', '2026-13-01', '2026-1-1', '01.02.2026', 20260101, '']) {
      expect(checkDate('on', odd)).toMatchObject([{ code: 'not-a-date', value: odd }]);
    }
    expect(checkDate('on', null)[0]!.code).toBe('missing');
  });

  it('refuses days outside their bounds and says the bounds', () => {
    expect(checkDate('to', '2026-01-01', { from: '2026-01-02' })).toMatchObject([
      { code: 'dates-out-of-order', allowed: 'YYYY-MM-DD from 2026-01-02' },
    ]);
  });

  it('counts days there and back, over leap days', () => {
    expect(dayNumber('2028-03-01') - dayNumber('2028-02-28')).toBe(2);
    expect(isoDate(dayNumber('2026-11-25'))).toBe('2026-11-25');
  });

  it('cuts a stretch into months without a gap', () => {
    expect(monthsOf('2025-12-30', '2026-02-02')).toEqual([
      { month: '2025-12', from: '2025-12-30', to: '2025-12-31' },
      { month: '2026-01', from: '2026-01-01', to: '2026-01-31' },
      { month: '2026-02', from: '2026-02-01', to: '2026-02-02' },
    ]);
  });
});
