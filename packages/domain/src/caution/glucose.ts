import type { BedsideState } from '../bedside/state.ts';
import { type EpochMs, minutesBetween } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';

/** Whether a blood glucose is asked for before an exchange: diabetes was stated, and none was measured of late. */
export const glucoseAsked = (
  { cautions, glucose }: Pick<BedsideState, 'cautions' | 'glucose'>,
  at: EpochMs,
  { settings }: Pick<WardPolicy, 'settings'>,
): boolean =>
  cautions.diabetes?.present === true &&
  (glucose === null || minutesBetween(glucose.at, at) > settings.glucoseOldMinutes);
