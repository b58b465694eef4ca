import { measuredMl } from '../cavity/measured.ts';
import type { DrainOut } from '../dwell/dwell.ts';
import { APPEARANCES, FLOW_MOVES } from '../effluent/effluent.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Apply } from './apply.ts';
import { withComfort } from './apply-findings.ts';
import { beginDrain, changeDwell, newestDwell } from './fluid.ts';
import { ordersAfterDrain } from './order-ends.ts';
import type { BedsideState, Visit } from './state.ts';
import { stepOfVisit } from './step.ts';

export const applyStartDrain: Apply<'startDrain'> = (state, entry, policy) => {
  const visit = state.visit;
  if (visit === null) return state;
  const drain: DrainOut = {
    entryId: entry.id,
    visitId: visit.id,
    startedAt: entry.happenedAt,
    endedAt: null,
    drainedMl: null,
    readingMl: null,
    exactMl: null,
    flow: null,
    appearance: [],
  };
  const draining = stepOfVisit(state, entry, { state: 'draining', drains: [...visit.drains, drain] });
  return beginDrain(draining, drain, false, policy);
};

export const applyEndDrain: Apply<'endDrain'> = (state, entry, policy) =>
  endRunningDrain(stepOfVisit(state, entry, { state: 'drained' }), entry.happenedAt, entry.payload.flow, policy);

/** Ends the drain that runs, if one does; orders that it carried out end with it. */
export function endRunningDrain(
  state: BedsideState,
  endedAt: EpochMs,
  flow: DrainOut['flow'],
  policy: WardPolicy,
): BedsideState {
  const visit = state.visit;
  const running = visit?.drains.at(-1);
  if (visit == null || running === undefined || running.endedAt !== null) return state;
  const ended = changeDrain(state, visit.id, visit.drains.length, (drain) => ({ ...drain, endedAt, flow }), policy);
  return ended === null ? state : ordersAfterDrain(ended, newestDwell(ended), endedAt);
}

/** The exact measure replaces the reading in every sum; of two of a role the one recorded last counts. */
export const applyMeasure: Apply<'measure'> = (state, entry, policy) => {
  const measure = entry.payload;
  const volumeMl = measuredMl(measure);
  const change = (drain: DrainOut): DrainOut => {
    const readingMl = measure.role === 'reading' ? volumeMl : drain.readingMl;
    const exactMl = measure.role === 'exact' ? volumeMl : drain.exactMl;
    return { ...drain, readingMl, exactMl, drainedMl: exactMl ?? readingMl };
  };
  return changeDrain(state, entry.visitId, measure.drain, change, policy) ?? state;
};

/**
 * What was seen stays seen: a later look adds, only a correction takes away. Clear is clear of everything else. That
 * nobody watched it leaves what others saw, and is not clear.
 */
export const applyAppearance: Apply<'appearance'> = (state, entry, policy) => {
  const { appearance } = entry.payload;
  if (appearance === null) return state;
  const change = (drain: DrainOut): DrainOut => {
    const seen = APPEARANCES.filter((one) => drain.appearance.includes(one) || appearance.includes(one));
    return { ...drain, appearance: seen.length > 1 ? seen.filter((one) => one !== 'clear') : seen };
  };
  return changeDrain(state, entry.visitId, entry.payload.drain, change, policy) ?? state;
};

export const applyFlowMoves: Apply<'flowMoves'> = (state, entry) =>
  changeVisit(state, entry.visitId, (visit) => ({
    ...visit,
    flowMoves: FLOW_MOVES.filter((move) => visit.flowMoves.includes(move) || entry.payload.tried.includes(move)),
  }));

/** What a move did stands once for a drain and move; the word recorded last counts. What did something was tried. */
export const applyFlowEffect: Apply<'flowEffect'> = (state, entry) =>
  changeVisit(state, entry.visitId, (visit) => {
    const { drain, move } = entry.payload;
    const others = visit.flowEffects.filter((one) => one.drain !== drain || one.move !== move);
    return {
      ...visit,
      flowMoves: FLOW_MOVES.filter((one) => one === move || visit.flowMoves.includes(one)),
      flowEffects: [...others, entry.payload].sort(
        (a, b) => a.drain - b.drain || FLOW_MOVES.indexOf(a.move) - FLOW_MOVES.indexOf(b.move),
      ),
    };
  });

/** The fate of each drain's bag; the one recorded last counts. */
export const applyBagFate: Apply<'bagFate'> = (state, entry) =>
  changeVisit(state, entry.visitId, (visit) => ({
    ...visit,
    bagFates: [...visit.bagFates.filter((fate) => fate.drain !== entry.payload.drain), entry.payload].sort(
      (a, b) => a.drain - b.drain,
    ),
  }));

/** That nobody watched the patient leaves what others said. */
export const applyComfort: Apply<'comfort'> = (state, entry) => {
  const { comfort, phase } = entry.payload;
  if (comfort === null) return state;
  return withComfort(
    changeVisit(state, entry.visitId, (visit) => ({ ...visit, comfort })),
    entry,
    { comfort, when: phase },
  );
};

/** The visit under way or the last one, by id; null when it is neither. */
export function visitInReach(state: BedsideState, visitId: string | null): Visit | null {
  if (visitId === null) return null;
  return [state.visit, state.lastVisit].find((visit) => visit?.id === visitId) ?? null;
}

function changeVisit(state: BedsideState, visitId: string | null, change: (visit: Visit) => Visit): BedsideState {
  const visit = visitInReach(state, visitId);
  if (visit === null) return state;
  return visit === state.visit ? { ...state, visit: change(visit) } : { ...state, lastVisit: change(visit) };
}

/** Changes one drain of a visit (from 1), in the visit and in its dwell; null when either is out of reach. */
function changeDrain(
  state: BedsideState,
  visitId: string | null,
  number: number,
  change: (drain: DrainOut) => DrainOut,
  policy: WardPolicy,
): BedsideState | null {
  const old = visitInReach(state, visitId)?.drains[number - 1];
  if (old === undefined) return null;
  const replace = (drains: readonly DrainOut[]) =>
    drains.map((drain) => (drain.entryId === old.entryId ? change(drain) : drain));
  const dwell = [state.openDwell, ...state.lastDwells].find((one) =>
    one?.drains.some((drain) => drain.entryId === old.entryId),
  );
  if (dwell == null) return null;
  const inVisit = changeVisit(state, visitId, (visit) => ({ ...visit, drains: replace(visit.drains) }));
  return changeDwell(inVisit, dwell.id, (facts) => ({ ...facts, drains: replace(facts.drains) }), policy);
}
