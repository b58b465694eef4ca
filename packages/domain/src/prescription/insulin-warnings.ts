import type { BedsideState } from '../bedside/state.ts';
import { additivesInside } from '../dwell/additives-inside.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatClock } from '../words/numbers.ts';
import { type Additive, hasInsulin } from './additive.ts';
import { additivesWords } from './additive-words.ts';
import { bagFor } from './bag-for.ts';
import type { OrderContent, PrescriptionItem } from './prescription.ts';

const onlyInsulin = (additives: readonly Additive[]): string =>
  additivesWords(additives.filter(({ kind }) => kind === 'insulin'));

// Insulin was ordered for one bag: its glucose and its dwell. The tool says that it no longer fits, and no number.

/** A drain well before it is due ends the dwell that insulin was given for. null where that is not so. */
export function insulinAtDrain({ cavity, due }: BedsideState, at: EpochMs, zone: string): string | null {
  const inside = additivesInside(cavity);
  if (!hasInsulin(inside) || due?.what !== 'drain' || at >= due.soonAt) return null;
  return `Insulin was given for this bag (${onlyInsulin(inside)}), to dwell until ${formatClock(due.dueAt, zone)}: call the physician.`;
}

/** No fill, though insulin is ordered in it. null where that is not so. */
export function insulinAtSkip(state: BedsideState, policy: WardPolicy): string | null {
  const next = bagFor(state, policy)?.additives ?? [];
  if (!hasInsulin(next)) return null;
  return `Insulin is ordered in the bag that is not given (${onlyInsulin(next)}): call the physician.`;
}

/** A changed exchange whose insulin was ordered for another bag. null where it has none, or nothing that matters changed. */
export function insulinAtRevision(before: PrescriptionItem | undefined, after: PrescriptionItem): string | null {
  if (before === undefined || !hasInsulin([...before.additives, ...after.additives])) return null;
  const same =
    before.solutionId === after.solutionId &&
    before.fillMl === after.fillMl &&
    JSON.stringify(before.dwell) === JSON.stringify(after.dwell);
  return same ? null : 'Insulin was ordered for the bag as it was: order it anew for this strength, volume and dwell.';
}

/** What an order does to insulin: to what is inside, or to the bag in whose place it stands. null = nothing. */
export function insulinAtOrder(
  state: BedsideState,
  content: OrderContent,
  now: EpochMs,
  policy: WardPolicy,
): string | null {
  switch (content.what) {
    case 'drainNow':
    case 'partialDrain':
      return insulinAtDrain(state, now, policy.zone);
    case 'dueAt':
      return insulinAtDrain(state, content.dueAt, policy.zone);
    case 'drainAndStayEmpty':
      return insulinAtDrain(state, content.drainBy, policy.zone) ?? insulinAtSkip(state, policy);
    case 'oneExchange': {
      const next = bagFor(state, policy);
      if (next === null || !hasInsulin(next.additives)) return null;
      return `Insulin was ordered for the bag that this one replaces (${onlyInsulin(next.additives)}): say in this order what holds.`;
    }
    default:
      return null;
  }
}
