import { infusedMl } from '../cavity/measured.ts';
import type { EpochMs } from '../time/instant.ts';
import type { Apply } from './apply.ts';
import { endRunningDrain } from './apply-drain.ts';
import { endRunningFill } from './apply-fill.ts';
import { endDwell } from './fluid.ts';
import { ordersAfterVisit } from './order-ends.ts';
import type { BedsideState, Visit } from './state.ts';
import { headedBy, stepOfVisit } from './step.ts';

export const applyPrepare: Apply<'prepare'> = (state, entry) => {
  if (entry.visitId === null) return state;
  const { purpose, bag, revisionId, itemId, orderId, despiteOrder } = entry.payload;
  const visit: Visit = {
    id: entry.visitId,
    state: 'preparing',
    since: entry.happenedAt,
    startedAt: entry.happenedAt,
    startedBy: entry.author,
    purpose,
    bag,
    revisionId,
    itemId,
    orderId,
    drains: [],
    fill: null,
    comfort: null,
    flowMoves: [],
    flowEffects: [],
    closedAt: null,
    stopped: null,
    bagFates: [],
    despiteOrderId: despiteOrder?.orderId ?? null,
    additiveCheck: null,
  };
  return headedBy({ ...state, visit }, entry);
};

export const applyConnect: Apply<'connect'> = (state, entry) => stepOfVisit(state, entry, { state: 'connected' });

export const applyClose: Apply<'close'> = (state, entry) => {
  const { visit } = state;
  if (visit === null) return state;
  return headedBy(endVisit(ordersAfterVisit(state, visit, entry.happenedAt), entry.happenedAt), entry);
};

/** A drain that ran has not run to a stop; a fill that ran has put in what the nurse says, or it is not known. */
export const applyStop: Apply<'stop'> = (state, entry, policy) => {
  const { infused } = entry.payload;
  const drained = endRunningDrain(state, entry.happenedAt, 'notStopped', policy);
  const still = endRunningFill(drained, entry, infused === null ? null : infusedMl(infused));
  if (still.visit === null) return state;
  const stopped: BedsideState = { ...still, visit: { ...still.visit, stopped: entry.payload } };
  return headedBy(endVisit(stopped, entry.happenedAt), entry);
};

/** The visit keeps the state that it ended in: it tells where a resumed one goes on. */
function endVisit(state: BedsideState, closedAt: EpochMs): BedsideState {
  const { visit } = state;
  return visit === null ? state : { ...endDwell(state), visit: null, lastVisit: { ...visit, closedAt } };
}

/** Whoever was connected when it was stopped is connected anew. */
export const applyResume: Apply<'resume'> = (state, entry) => {
  const stopped = state.lastVisit;
  if (stopped === null) return state;
  const at: Visit['state'] = stopped.state === 'preparing' ? 'preparing' : 'connected';
  const visit: Visit = { ...stopped, state: at, since: entry.happenedAt, closedAt: null, stopped: null };
  return headedBy({ ...state, visit, lastVisit: null }, entry);
};
