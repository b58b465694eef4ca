import { minusDwell, plusDwell } from '../balance/balance.ts';
import type { Cavity, FillInside } from '../cavity/cavity.ts';
import { type DwellFacts, deriveDwell, reckoningAfter } from '../dwell/derive.ts';
import type { DrainOut, Dwell } from '../dwell/dwell.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { inTime } from './buckets.ts';
import { withRemoval } from './removals.ts';
import type { BedsideState } from './state.ts';

/** So many drained dwells the state keeps: enough for the bedside, and for every measure that still comes in. */
const DWELLS_KEPT = 5;

/** The dwell that was drained last, or is being drained; null before the first drain of the stay. */
export const newestDwell = (state: BedsideState): Dwell | null => state.openDwell ?? state.lastDwells[0] ?? null;

/** Whether the cavity holds fills that no drain has touched. */
export function holdsUndrained(state: BedsideState): boolean {
  if (state.cavity.state !== 'holding') return false;
  return newestDwell(state)?.id !== state.cavity.fills[0]?.entryId;
}

/** A fill went in: it joins fills that no drain has touched, else a new dwell begins. */
export function addFill(state: BedsideState, fill: FillInside): BedsideState {
  const since = fill.endedAt ?? fill.startedAt ?? state.cavity.since;
  const cavity: Cavity =
    state.cavity.state === 'holding' && holdsUndrained(state)
      ? { ...state.cavity, fills: [...state.cavity.fills, fill] }
      : { state: 'holding', since, fills: [fill] };
  return { ...endDwell(state), cavity };
}

/** A drain begins: of the fills inside, or once more of the dwell that was drained last. */
export function beginDrain(state: BedsideState, drain: DrainOut, imported: boolean, policy: WardPolicy): BedsideState {
  const newest = newestDwell(state);
  if (holdsUndrained(state) || newest === null) {
    const dwell = deriveDwell(newDwell(state, drain, imported), policy);
    const begun: BedsideState = { ...endDwell(state), openDwell: dwell };
    return settleFluid(dwell.drainedAt === null ? begun : count(begun, dwell, dwell.drainedAt, policy), policy);
  }
  const reopened =
    state.openDwell === null ? { ...state, openDwell: newest, lastDwells: state.lastDwells.slice(1) } : state;
  const again = changeDwell(reopened, newest.id, drainedAgain(drain), policy);
  return again ?? reopened;
}

/** Whoever drains again doubts that it was empty: the confirmation no longer stands. */
const drainedAgain =
  (drain: DrainOut) =>
  (facts: DwellFacts): DwellFacts => ({ ...facts, drains: [...facts.drains, drain], emptyConfirmed: null });

function newDwell(state: BedsideState, drain: DrainOut, imported: boolean): DwellFacts {
  const { cavity } = state;
  const fills = cavity.state === 'holding' ? cavity.fills : cavity.state === 'empty' ? [] : [unknownFill(state.origin)];
  const id = fills[0]?.entryId ?? state.origin;
  return { id, fills, drains: [drain], before: state.inside, emptyConfirmed: null, imported };
}

const unknownFill = (entryId: string): FillInside => ({
  entryId,
  visitId: null,
  solutionId: null,
  filledMl: null,
  startedAt: null,
  endedAt: null,
  revisionId: null,
  itemId: null,
  orderId: null,
  additives: [],
});

/** The visit ended or a fill begins: the dwell takes its place among the last ones. */
export function endDwell(state: BedsideState): BedsideState {
  if (state.openDwell === null) return state;
  return { ...state, openDwell: null, lastDwells: [state.openDwell, ...state.lastDwells].slice(0, DWELLS_KEPT) };
}

/**
 * Changes what is recorded of a dwell, and all that follows from it: its sums, what is probably inside after it and
 * after every later dwell, the balances, the cavity.
 * @returns null when the dwell is not among those that the state keeps.
 */
export function changeDwell(
  state: BedsideState,
  dwellId: string,
  change: (facts: DwellFacts) => DwellFacts,
  policy: WardPolicy,
): BedsideState | null {
  const before = chain(state);
  const first = before.findIndex((dwell) => dwell.id === dwellId);
  const dwell = before[first];
  if (dwell === undefined) return null;

  const after = [...before];
  after[first] = deriveDwell(change(dwell), policy);
  for (let later = first + 1; later < after.length; later += 1) {
    const inside = reckoningAfter(after[later - 1]!, policy);
    after[later] = deriveDwell({ ...after[later]!, before: inside }, policy);
  }
  let result = withChain(state, after);
  for (const [index, old] of before.entries()) if (index >= first) result = recount(result, old, after[index]!, policy);
  return settleFluid(result, policy);
}

/** The dwells that the state keeps, oldest first. */
const chain = (state: BedsideState): readonly Dwell[] => [
  ...state.lastDwells.toReversed(),
  ...(state.openDwell === null ? [] : [state.openDwell]),
];

function withChain(state: BedsideState, dwells: readonly Dwell[]): BedsideState {
  const openDwell = state.openDwell === null ? null : dwells.at(-1)!;
  const last = openDwell === null ? dwells : dwells.slice(0, -1);
  return { ...state, openDwell, lastDwells: last.toReversed() };
}

function recount(state: BedsideState, old: Dwell, dwell: Dwell, policy: WardPolicy): BedsideState {
  const without =
    old.drainedAt === null ? state : inTime(state, old.drainedAt, (balance) => minusDwell(balance, old), policy);
  return dwell.drainedAt === null
    ? { ...without, removals: withRemoval(without.removals, dwell) }
    : count(without, dwell, dwell.drainedAt, policy);
}

function count(state: BedsideState, dwell: Dwell, drainedAt: EpochMs, policy: WardPolicy): BedsideState {
  const counted = inTime(state, drainedAt, (balance) => plusDwell(balance, dwell), policy);
  return { ...counted, removals: withRemoval(state.removals, dwell) };
}

/** What is inside and what the cavity is, from the newest dwell; fills that no drain has touched stay as they are. */
function settleFluid(state: BedsideState, policy: WardPolicy): BedsideState {
  const newest = newestDwell(state);
  if (newest === null) return state;
  const inside = reckoningAfter(newest, policy);
  return holdsUndrained(state) ? { ...state, inside } : { ...state, inside, cavity: cavityAfter(newest) };
}

/** Empty only after a complete drain or a person's word; else what was inside is still taken to be inside. */
function cavityAfter(dwell: Dwell): Cavity {
  if (dwell.emptyConfirmed !== null) return { state: 'empty', since: dwell.emptyConfirmed.at };
  if (dwell.complete && dwell.drainedAt !== null) return { state: 'empty', since: dwell.drainedAt };
  const since: EpochMs = filledSince(dwell);
  const nothingKnown = dwell.fills.every((fill) => fill.filledMl === null && fill.solutionId === null);
  return nothingKnown ? { state: 'unknown', since } : { state: 'holding', since, fills: dwell.fills };
}

function filledSince(dwell: Dwell): EpochMs {
  const fill = dwell.fills[0];
  return fill?.endedAt ?? fill?.startedAt ?? dwell.drains[0]!.startedAt;
}
