import type { BedsideState } from '../bedside/state.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { StandingCaution } from './caution.ts';
import { isIcodextrin } from './icodextrin.ts';
import { CAUTION_WORDS } from './words.ts';

/** Not with one of these (product information; from memory: the ward's clinical lead confirms it). */
const AGAINST_ICODEXTRIN: readonly StandingCaution[] = ['maltoseIntolerance', 'glycogenStorageDisease'];

/**
 * What whoever prescribes or orders icodextrin is told about this patient, in words: what stands against it, and what
 * nobody was asked. A caution and never a stop: the physician decides.
 * @param solutionIds all that is about to be prescribed
 * @returns [] without icodextrin among them, or where both were asked and denied
 */
export function icodextrinWarnings(
  { cautions }: Pick<BedsideState, 'cautions'>,
  solutionIds: readonly string[],
  policy: Pick<WardPolicy, 'formulary'>,
): readonly string[] {
  if (!solutionIds.some((id) => isIcodextrin(id, policy))) return [];
  return AGAINST_ICODEXTRIN.flatMap((about) => {
    const said = cautions[about];
    if (said === null) return [`${CAUTION_WORDS[about]}: nobody was asked.`];
    return said.present ? [`${CAUTION_WORDS[about]}: icodextrin is not for this patient.`] : [];
  });
}
