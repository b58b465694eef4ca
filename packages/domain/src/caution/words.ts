import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatClock, formatDate } from '../words/numbers.ts';
import { STANDING_CAUTIONS, type StandingCaution } from './caution.ts';
import { icodextrinCaution } from './icodextrin.ts';

export const CAUTION_WORDS: Record<StandingCaution, string> = {
  diabetes: 'Diabetes',
  maltoseIntolerance: 'Maltose or isomaltose intolerance',
  glycogenStorageDisease: 'Glycogen storage disease',
};

/** The cautions that stand for a patient at an instant, in words: what somebody said, and what the dwells say themselves. */
export function standingCautions(state: BedsideState, at: EpochMs, policy: WardPolicy): readonly string[] {
  const said = STANDING_CAUTIONS.filter((about) => state.cautions[about]?.present === true).map((about) =>
    about === 'diabetes' ? CAUTION_WORDS[about] : `${CAUTION_WORDS[about]}: no icodextrin`,
  );
  const icodextrin = icodextrinCaution(state, at, policy);
  if (icodextrin === null) return said;
  const { until } = icodextrin;
  const { icodextrinCautionDays } = policy.settings;
  const length =
    until === null
      ? `inside, and ${icodextrinCautionDays} days after`
      : `until ${formatDate(until, policy.zone)} ${formatClock(until, policy.zone)}`;
  return [...said, `Icodextrin ${length}: glucose-specific meter only; amylase reads falsely low`];
}
