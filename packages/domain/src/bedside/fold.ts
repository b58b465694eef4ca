import { dueOf } from '../dwell/due.ts';
import type { Dwell } from '../dwell/dwell.ts';
import { canonical } from '../record/canonical.ts';
import type { Entry } from '../record/entry.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Apply } from './apply.ts';
import { visitInReach } from './apply-drain.ts';
import { APPLY } from './apply-table.ts';
import { icodextrinLastAt } from './icodextrin.ts';
import { initialBedside } from './initial.ts';
import { isAboutAlert, isFree, isVisitObservation } from './order-of-kinds.ts';
import type { BedsideState } from './state.ts';
import { withVisitObservations } from './visit-observations.ts';

/** A patient's state, and the dwells that its entries made (fold) or changed (advance), oldest first. */
export type Folded = { state: BedsideState; dwells: readonly Dwell[] };

/**
 * The definition of a patient's state: all entries, corrections resolved, folded in canonical order. It does not depend
 * on the order or the number of times in which entries arrive, nor on now.
 */
export function fold(patientId: string, entries: readonly Entry[], policy: WardPolicy): Folded {
  const dwells = new Map<string, Dwell>();
  const state = replay(patientId, entries, policy, (before, _entry, after) => {
    for (const dwell of changedDwells(before, after)) dwells.set(dwell.id, dwell);
  });
  return { state: withDue(state, policy), dwells: [...dwells.values()] };
}

/** Goes through the entries that count, in canonical order, and shows each with the state before and after it. */
export function replay(
  patientId: string,
  entries: readonly Entry[],
  policy: WardPolicy,
  see: (before: BedsideState, entry: Entry, after: BedsideState) => void,
): BedsideState {
  let state = initialBedside(patientId);
  for (const entry of withVisitObservations(canonical(entries))) {
    const after = applyEntry(state, entry, policy);
    see(state, entry, after);
    state = after;
  }
  return state;
}

/**
 * The quick path: the state after one entry more, in time that does not grow with history. It equals the fold of all.
 * @returns 'refold' when the entry speaks of something that the state no longer holds, or is not the newest of those
 *   whose order matters.
 */
export function advance(state: BedsideState, entry: Entry, policy: WardPolicy): Folded | 'refold' {
  if (needsRefold(state, entry)) return 'refold';
  const next = applyEntry(state, entry, policy);
  return { state: withDue(next, policy), dwells: changedDwells(state, next) };
}

function needsRefold(state: BedsideState, entry: Entry): boolean {
  if (entry.kind === 'corrected' || entry.kind === 'retracted' || entry.kind === 'admitted') return true;
  if (isVisitObservation(entry)) return isOutOfReach(state, entry);
  // Two of one time: which is the newer one is for the canonical order to say.
  if (isNewestByTime(entry)) return newestAt(state, entry) === entry.happenedAt;
  if (isAboutAlert(entry)) return isBefore(entry, state.newestAlert);
  return !isFree(entry) && isBefore(entry, state.newest);
}

type NewestByTime = 'weight' | 'bloodPressure' | 'temperature' | 'glucose' | 'exitSite' | 'calledFirst' | 'caution';

const NEWEST_BY_TIME: ReadonlySet<Entry['kind']> = new Set<NewestByTime>([
  'weight',
  'bloodPressure',
  'temperature',
  'glucose',
  'exitSite',
  'calledFirst',
  'caution',
]);

const isNewestByTime = (entry: Entry): entry is Entry<NewestByTime> => NEWEST_BY_TIME.has(entry.kind);

const newestAt = (state: BedsideState, entry: Entry<NewestByTime>): EpochMs | undefined =>
  (entry.kind === 'caution' ? state.cautions[entry.payload.about] : state[entry.kind])?.at;

const isBefore = (entry: Entry, newest: BedsideState['newest']): boolean =>
  newest !== null &&
  (entry.happenedAt < newest.happenedAt ||
    (entry.happenedAt === newest.happenedAt && entry.position <= newest.position));

function isOutOfReach(state: BedsideState, entry: Entry): boolean {
  const visit = visitInReach(state, entry.visitId);
  if (visit === null) return true;
  if (entry.kind !== 'measure' && entry.kind !== 'appearance') return false;
  const drain = visit.drains[entry.payload.drain - 1];
  const kept = [state.openDwell, ...state.lastDwells].some((dwell) =>
    dwell?.drains.some((one) => one.entryId === drain?.entryId),
  );
  // Which missing volume is the oldest that is listed cannot be told without the earlier ones.
  return !kept || state.stayBalance.missingEarlier > 0;
}

function applyEntry(state: BedsideState, entry: Entry, policy: WardPolicy): BedsideState {
  const apply = APPLY[entry.kind] as Apply<Entry['kind']>;
  const applied = apply(state, entry, policy);
  if (isFree(entry) || isVisitObservation(entry)) return applied;
  const key = { happenedAt: entry.happenedAt, position: entry.position };
  return isAboutAlert(entry)
    ? { ...applied, newestAlert: key }
    : { ...applied, newest: key, icodextrinAt: icodextrinLastAt(applied, policy) };
}

const withDue = (state: BedsideState, policy: WardPolicy): BedsideState => ({ ...state, due: dueOf(state, policy) });

/** Dwells are made anew when they change, so the same object is the same dwell. Oldest first. */
function changedDwells(before: BedsideState, after: BedsideState): readonly Dwell[] {
  const known = new Set([before.openDwell, ...before.lastDwells]);
  const now = [...after.lastDwells.toReversed(), ...(after.openDwell === null ? [] : [after.openDwell])];
  return now.filter((dwell) => !known.has(dwell));
}
