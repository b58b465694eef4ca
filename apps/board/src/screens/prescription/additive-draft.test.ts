import { type Additive, DEFAULT_SETTINGS } from '@slackwater/domain';
import { describe, expect, it } from 'vitest';
import { additiveDraft, NEW_ADDITIVE, readAdditive, readAmount } from './additive-draft.ts';

const CEFAZOLIN: Additive = { what: 'cefazolin', amount: 1, unit: 'g', kind: 'antibiotic', minimumDwellMinutes: 360 };
const read = (change: Partial<ReturnType<typeof additiveDraft>>) =>
  readAdditive({ ...additiveDraft(CEFAZOLIN), ...change }, DEFAULT_SETTINGS);

describe('an additive in the form', () => {
  it('comes out as it went in', () => expect(read({})).toEqual(CEFAZOLIN));
  it('is not read while anything of it was not said: neither unit, kind nor dwell is guessed', () => {
    expect(readAdditive(NEW_ADDITIVE, DEFAULT_SETTINGS)).toBeNull();
    for (const missing of [{ what: ' ' }, { amount: '' }, { unit: '' }, { kind: '' }, { leastDwell: '' }] as const) {
      expect(read(missing)).toBeNull();
    }
    expect(read({ leastDwell: '0 min' })?.minimumDwellMinutes).toBe(0);
  });
  // ISMP error-prone list: commas, naked points and trailing zeros are read as ten or a thousand times as much.
  it.each(['1,000', '1.0', '.5', '2e3', '1 000', '0', '-1', '1.'])('does not take the amount %s', (typed) => {
    expect(readAmount(typed)).toMatchObject({ value: null, problem: expect.stringContaining(typed) });
  });
  it.each([
    ['1000', 1000],
    ['0.5', 0.5],
    ['12', 12],
  ])('takes the amount %s', (typed, value) => expect(readAmount(typed).value).toBe(value));
});
