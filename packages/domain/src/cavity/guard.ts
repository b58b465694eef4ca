import type { BedsideState } from '../bedside/state.ts';
import type { PrescriptionItem } from '../prescription/prescription.ts';
import { solutionOf } from '../solution/formulary.ts';
import type { Solution } from '../solution/solution.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatMl, formatWhole } from '../words/numbers.ts';
import { expectedUf } from './expected.ts';
import { objectionToFill } from './no-fill.ts';

/**
 * Whether a fill is offered: yes; ask first (drain again, turn, felt empty?); no (drain again, a smaller fill by
 * prescription, or an override by role with a reason).
 */
export type Guard = {
  offer: 'yes' | 'ask' | 'no';
  /** What is probably inside above the ordinary residual, by the book, mL; null = not known. */
  excessMl: number | null;
  /** The most that is expected inside during the coming dwell, mL; null = not known. */
  peakMl: number | null;
  why: string;
};

/**
 * The guard before a fill. Excess = by the book − ordinary residual, against the prescribed fill: over the ward's first
 * share (25 %) ask, over the second (50 %) no. The expected peak (by the book + fill + expected ultrafiltration) is held
 * against the patient's own limit alone, where the physician set one: a 2 L dwell of 3.86 % ordinarily peaks at 150 % of
 * its fill. Shares from memory, low confidence: the ward sets them. What patient and effluent say against a fill counts
 * whatever the volumes are (`no-fill.ts`).
 *
 * @param prescribedFillMl what the dwell is to hold, mL, with all its bags; parts of it that went in before a stop, or
 *   from the first bag, are not counted against the rest
 */
export function guardFill(state: BedsideState, prescribedFillMl: number, policy: WardPolicy): Guard {
  const guard = guardVolume(state, prescribedFillMl, policy);
  const objection = objectionToFill(state, policy);
  if (objection === null) return guard;
  const offer = objection.offer === 'no' || guard.offer === 'no' ? 'no' : 'ask';
  return { ...guard, offer, why: guard.offer === 'yes' ? objection.why : `${objection.why} ${guard.why}` };
}

/** What the volumes say. */
function guardVolume(state: BedsideState, prescribedFillMl: number, policy: WardPolicy): Guard {
  const { bookMl } = state.inside;
  const alreadyInMl = undrainedMl(state);
  if (bookMl === null || alreadyInMl === null || state.cavity.state === 'unknown') {
    return {
      offer: 'no',
      excessMl: null,
      peakMl: null,
      why: 'Not known what is inside: drain until the flow stops, then confirm that the cavity is empty.',
    };
  }
  // A whole fill that no drain has touched is no part of the one that is to come.
  const untouchedMl = alreadyInMl < prescribedFillMl ? 0 : alreadyInMl;
  const excessMl = Math.max(0, bookMl - policy.settings.residualMl) + untouchedMl;
  const peakMl = expectedPeak(state, bookMl, untouchedMl + prescribedFillMl, policy);
  return { ...judged(state, excessMl, prescribedFillMl, peakMl, policy), excessMl, peakMl };
}

function judged(
  state: BedsideState,
  excessMl: number,
  fillMl: number,
  peakMl: number | null,
  policy: WardPolicy,
): Pick<Guard, 'offer' | 'why'> {
  const { guardAskPercent, guardStopPercent } = policy.settings;
  const percent = (100 * excessMl) / fillMl;
  const inside = `Probably ${formatMl(excessMl)} more inside than an ordinary residual: ${formatWhole(percent)} % of the fill`;
  if (percent > guardStopPercent) {
    return {
      offer: 'no',
      why: `${inside} (limit ${guardStopPercent} %). Drain again, or a smaller fill by prescription.`,
    };
  }
  const limitMl = state.prescription?.limits.mostInsideMl ?? null;
  if (limitMl !== null && peakMl !== null && peakMl > limitMl) {
    return {
      offer: 'no',
      why: `${formatMl(peakMl)} expected inside at most; the patient's limit is ${formatMl(limitMl)}.`,
    };
  }
  if (percent > guardAskPercent) {
    return { offer: 'ask', why: `${inside} (ask above ${guardAskPercent} %). Drain again, turn, felt empty?` };
  }
  if (limitMl !== null && peakMl === null) {
    return { offer: 'ask', why: `The most expected inside is not known; the patient's limit is ${formatMl(limitMl)}.` };
  }
  return { offer: 'yes', why: 'Within the limits.' };
}

/** Fills inside that no drain has touched, mL; 0 when the newest dwell was drained; null = not known. */
export function undrainedMl(state: BedsideState): number | null {
  const { cavity } = state;
  const newest = state.openDwell ?? state.lastDwells[0];
  if (cavity.state !== 'holding' || newest?.id === cavity.fills[0]?.entryId) return 0;
  return cavity.fills.reduce<number | null>(
    (sum, fill) => (sum === null || fill.filledMl === null ? null : sum + fill.filledMl),
    0,
  );
}

/** Beyond what is prescribed to dwell, the table's lengths at which ultrafiltration may be highest, min. */
const TABLE_MINUTES = [60, 120, 240, 480] as const;

function expectedPeak(state: BedsideState, bookMl: number, fillMl: number, policy: WardPolicy): number | null {
  const item = itemAtHand(state);
  const solution = solutionOf(policy.formulary, state.visit?.bag?.solutionId ?? item?.solutionId ?? null);
  if (solution === null) return null;
  const highestUfMl = highestUf(solution, fillMl, dwellMinutesOf(item), policy);
  return highestUfMl === null ? null : bookMl + fillMl + Math.max(0, highestUfMl + state.inside.ufCorrectionMl);
}

function itemAtHand({ prescription, visit }: BedsideState): PrescriptionItem | null {
  return prescription?.items.find((item) => item.id === visit?.itemId) ?? null;
}

const dwellMinutesOf = (item: PrescriptionItem | null): number | null =>
  item === null || item.dwell.by === 'clock' ? null : item.dwell.dwellMinutes;

/** The highest expected ultrafiltration within the dwell; a dwell of no prescribed length may take all of the table's. */
function highestUf(solution: Solution, fillMl: number, dwellMinutes: number | null, policy: WardPolicy): number | null {
  const lengths =
    dwellMinutes === null ? TABLE_MINUTES : [...TABLE_MINUTES.filter((at) => at < dwellMinutes), dwellMinutes];
  const values = lengths.map((minutes) => expectedUf(solution, fillMl, minutes, policy.settings)?.ufMl ?? null);
  return values.includes(null) ? null : Math.max(...values.map(Number));
}
