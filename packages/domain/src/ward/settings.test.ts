import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS, SETTINGS, withChanges } from './settings.ts';

describe('changing settings', () => {
  it('lays changes over what is set', () => {
    const { settings, problems } = withChanges(DEFAULT_SETTINGS, { residualMl: 250 });
    expect(problems).toEqual([]);
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, residualMl: 250 });
  });
  it('is all or nothing, and names every field, value and range', () => {
    const { settings, problems } = withChanges(DEFAULT_SETTINGS, {
      residualMl: 250,
      flushMl: -1,
      colour: 3,
      closingMinutes: '15',
    });
    expect(settings).toBe(DEFAULT_SETTINGS);
    expect(problems.map(({ code, field, value }) => [code, field, value])).toEqual([
      ['out-of-range', 'flushMl', -1],
      ['unknown-setting', 'colour', 3],
      ['out-of-range', 'closingMinutes', '15'],
    ]);
    expect(problems[0]?.message).toBe('flushMl is -1; allowed is 0 to 500 mL.');
  });
  it.each([
    ['residualMl', 1000, true],
    ['residualMl', 1001, false],
    ['residualMl', 0, true],
    ['clockFarHours', 0.5, false],
  ])('%s may be %f: %s', (key, value, allowed) => {
    expect(withChanges(DEFAULT_SETTINGS, { [key]: value }).problems.length === 0).toBe(allowed);
  });
  it('refuses what is not a number at all', () => {
    expect(withChanges(DEFAULT_SETTINGS, { residualMl: Number.NaN }).problems).toHaveLength(1);
    expect(withChanges(DEFAULT_SETTINGS, { toString: 1 }).problems[0]?.code).toBe('unknown-setting');
  });
  it('refuses limits in the wrong order', () => {
    const { problems } = withChanges(DEFAULT_SETTINGS, { guardAskPercent: 60 });
    expect(problems).toMatchObject([{ code: 'out-of-order', field: 'guardAskPercent', value: 60 }]);
  });
});

it('every default lies in its own range, and the defaults are in order', () => {
  for (const [key, { default: value, min, max }] of Object.entries(SETTINGS)) {
    expect([key, value >= min && value <= max]).toEqual([key, true]);
  }
  expect(withChanges(DEFAULT_SETTINGS, DEFAULT_SETTINGS).problems).toEqual([]);
});
