import type { FillInside } from '../cavity/cavity.ts';
import { infusedMl } from '../cavity/measured.ts';
import type { Entry } from '../record/entry.ts';
import type { EpochMs } from '../time/instant.ts';
import type { Apply } from './apply.ts';
import { addFill, endDwell } from './fluid.ts';
import { ordersAtFill } from './order-ends.ts';
import type { BedsideState } from './state.ts';
import { stepOfVisit } from './step.ts';

/** The dwell before is over once fluid runs in. */
export const applyStartFill: Apply<'startFill'> = (state, entry) => {
  if (state.visit === null) return state;
  const fill = { ...entry.payload, startedAt: entry.happenedAt, entryId: entry.id };
  const despiteOrderId = fill.despiteOrder?.orderId ?? state.visit.despiteOrderId;
  const filling = stepOfVisit(endDwell(state), entry, { state: 'filling', fill, despiteOrderId, additiveCheck: null });
  return ordersAtFill({ ...filling, revisionInside: revisionOf(state, entry) }, entry.happenedAt);
};

/** The revision that the bag check named, while the state still has it. */
function revisionOf(state: BedsideState, entry: Entry<'startFill'>): BedsideState['revisionInside'] {
  const { revisionId } = entry.payload;
  return [state.prescription, state.revisionInside].find((one) => one != null && one.id === revisionId) ?? null;
}

export const applyEndFill: Apply<'endFill'> = (state, entry) =>
  stepOfVisit(endRunningFill(state, entry, infusedMl(entry.payload.infused)), entry, { state: 'closing' });

/** Ends the fill that runs with what went in, mL; null = not known, 0 = nothing did. */
export function endRunningFill(state: BedsideState, entry: Entry, filledMl: number | null): BedsideState {
  const { visit } = state;
  if (visit?.fill == null) return state;
  const ended: BedsideState = { ...state, visit: { ...visit, fill: null } };
  if (filledMl === 0) return ended;
  const { fill } = visit;
  const inside = fillInside(fill, entry.id, visit.id, entry.happenedAt, filledMl);
  return { ...addFill(ended, inside), lastItemId: fill.itemId ?? state.lastItemId };
}

const fillInside = (
  fill: NonNullable<NonNullable<BedsideState['visit']>['fill']>,
  entryId: string,
  visitId: string,
  endedAt: EpochMs,
  filledMl: number | null,
): FillInside => ({
  entryId,
  visitId,
  solutionId: fill.bag.solutionId,
  filledMl,
  startedAt: fill.startedAt,
  endedAt,
  revisionId: fill.revisionId,
  itemId: fill.itemId,
  orderId: fill.orderId,
  additives: fill.additives,
});
