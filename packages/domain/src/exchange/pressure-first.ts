import type { BedsideState } from '../bedside/state.ts';
import { solutionOf } from '../solution/formulary.ts';
import { type EpochMs, minutesBetween } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatMinutes } from '../words/numbers.ts';
import type { PressureDoubt } from './pressure-doubt.ts';

/** The doubt with its figures: the pressure as last measured, or that there is none, and the limit that it breaks. */
export type PressureQuestion = { about: PressureDoubt; why: string };

/** Whether a bag counts as strong, by the ward's setting in g/L of anhydrous glucose; an unknown product does not. */
const isStrongBag = (solutionId: string | null, { formulary, settings }: WardPolicy): boolean =>
  (solutionOf(formulary, solutionId)?.glucoseGPerL ?? 0) >= settings.strongBagGlucoseGPerL;

/**
 * What stands against a strong bag: a systolic pressure below the patient's own limit, or none measured within the
 * ward's time. Without a limit of the patient's own only its age is asked: no limit is made up.
 * (A strong bag draws most fluid within the first hours; call first: the ward's practice, common practice.)
 *
 * @param at when the bag is prepared or the fill begins
 * @param visitId the visit; an answer given for it after that measurement settles the question
 * @returns null when nothing stands against it, or it was answered for this visit
 */
export function pressureQuestion(
  state: BedsideState,
  solutionId: string | null,
  at: EpochMs,
  visitId: string | null,
  policy: WardPolicy,
): PressureQuestion | null {
  if (!isStrongBag(solutionId, policy)) return null;
  const { bloodPressure, calledFirst, prescription } = state;
  const answered =
    calledFirst !== null && calledFirst.visitId === visitId && calledFirst.at >= (bloodPressure?.at ?? calledFirst.at);
  if (answered) return null;
  if (bloodPressure === null) return { about: 'pressureTooOld', why: 'No blood pressure is recorded.' };
  const { pressureOldMinutes } = policy.settings;
  const minutes = minutesBetween(bloodPressure.at, at);
  if (minutes > pressureOldMinutes) {
    const why = `The blood pressure is ${formatMinutes(minutes)} old; for a strong bag at most ${formatMinutes(pressureOldMinutes)}.`;
    return { about: 'pressureTooOld', why };
  }
  const limit = prescription?.limits.systolicLowMmHg ?? null;
  if (limit === null || bloodPressure.systolicMmHg >= limit) return null;
  const why = `The systolic pressure is ${bloodPressure.systolicMmHg} mmHg; the patient's limit is ${limit} mmHg.`;
  return { about: 'pressureTooLow', why };
}
