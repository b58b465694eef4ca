import { DEFAULT_SETTINGS, type PatientLimits } from '@slackwater/domain';
import { describe, expect, it } from 'vitest';
import { limitsDraft, readLimits } from './limits-draft.ts';

const limits: PatientLimits = {
  mostInsideMl: 2800,
  weightTargetKg: 68.5,
  weightTargetCavity: 'empty',
  systolicLowMmHg: 100,
  systolicHighMmHg: 160,
  overRemovalMl: 1500,
  overRemovalHours: 24,
};
const read = (change: Partial<ReturnType<typeof limitsDraft>>) =>
  readLimits({ ...limitsDraft(limits), ...change }, DEFAULT_SETTINGS);

describe('the limits of a revision', () => {
  it('come out of the form as they went in', () => expect(read({})).toEqual(limits));
  it('that are emptied are not set, never zero', () => {
    expect(read({ mostInside: '', systolicLow: ' ' })).toMatchObject({ mostInsideMl: null, systolicLowMmHg: null });
    expect(read({ weightTarget: '' })).toMatchObject({ weightTargetKg: null, weightTargetCavity: null });
  });
  it('are not read while one of them cannot be', () => {
    expect(read({ weightTarget: '68,5' })).toBeNull();
    expect(read({ systolicHigh: '281' })).toBeNull();
    expect(read({ overRemovalHours: '0' })).toBeNull();
  });
  it('begin empty where nothing is in force', () => {
    expect(Object.values(limitsDraft(null)).every((one) => one === '' || one === null)).toBe(true);
  });
});
