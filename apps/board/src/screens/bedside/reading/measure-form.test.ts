import { DEFAULT_SETTINGS } from '@slackwater/domain/ward/settings';
import { describe, expect, it } from 'vitest';
import { type MeasureDraft, readMeasure } from './measure-form.ts';

const draft = (change: Partial<MeasureDraft>): MeasureDraft => ({
  method: 'scale',
  gross: '',
  tare: '98',
  volume: '',
  flushIncluded: false,
  ...change,
});
const read = (change: Partial<MeasureDraft>) => readMeasure(draft(change), 1, 'reading', DEFAULT_SETTINGS);

describe('a measured drain', () => {
  // Clinical reference §1: (gross g − tare g) ÷ density 1.000; by hand 1948 − 98 = 1850 and 2048 − 98 − 100 = 1850.
  it('by scale is full less empty, less the flush that is in it', () => {
    expect(read({ gross: '1948' }).volumeMl).toBe(1850);
    expect(read({ gross: '2048', flushIncluded: true }).volumeMl).toBe(1850);
  });
  it('by bag marks is what is read', () => {
    expect(read({ method: 'bagMarks', volume: '1850' }).volumeMl).toBe(1850);
  });
  it('an unfinished form is no measure and no problem', () => {
    expect(read({})).toEqual({ measure: null, volumeMl: null, problem: null });
    expect(read({ gross: '2,048' }).measure).toBeNull();
  });
  it('empty heavier than full, or flush above what was read, is said', () => {
    expect(read({ gross: '50' }).problem).toContain('50 g is lighter than empty 98 g');
    expect(read({ method: 'jug', volume: '40', flushIncluded: true }).problem).toContain('flush of 100 mL');
  });
  // Typed ranges of clinical reference §1: drained 0 to 6,000 mL.
  it('more than the ward allows is refused with its range', () => {
    expect(read({ gross: '9000' }).problem).toBe('8,902 mL is not possible here: 0 to 6,000 mL.');
  });
});
