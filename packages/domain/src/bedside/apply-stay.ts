import { emptyBalance } from '../balance/balance.ts';
import type { Cavity, Reckoning } from '../cavity/cavity.ts';
import type { FluidHandedOver, FluidHandover } from '../cavity/fluid-said.ts';
import { NOT_KNOWN, startEmpty } from '../cavity/inside.ts';
import type { Entry } from '../record/entry.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Apply } from './apply.ts';
import type { BedsideState, StayState } from './state.ts';

/** A new stay: what is inside is what was handed over, and the counts begin anew. */
export const applyAdmitted: Apply<'admitted'> = (state, entry, policy) => {
  const { bed, dialysis } = entry.payload;
  const at = entry.happenedAt;
  return {
    ...state,
    ...handedOver(state, entry, policy),
    stay: { wardId: entry.wardId, bed, admittedAt: at, dialysis, offWard: null },
    fluidHandover: null,
    origin: entry.id,
    visit: null,
    lastVisit: null,
    openDwell: null,
    lastDwells: [],
    revisionInside: null,
    stayBalance: emptyBalance(at, at),
    removals: [],
    assignment: null,
  };
};

/**
 * The two figures start only from a person's word: that the cavity is empty, or how much is in it (that enters as a
 * fill on the ordinary residual). Without a volume both are not known.
 */
function handedOver(
  state: BedsideState,
  entry: Entry<'admitted'>,
  policy: WardPolicy,
): { cavity: Cavity; inside: Reckoning } {
  const { inside: fluid } = entry.payload;
  const since = entry.happenedAt;
  const { ufCorrectionMl, correctionFrom } = state.inside;
  const start = startEmpty(policy.settings, { at: since, by: 'admission' }, state.inside);
  const notKnown = { ...NOT_KNOWN, ufCorrectionMl, correctionFrom };
  if (fluid.cavity === 'empty') return { cavity: { state: 'empty', since }, inside: start };
  if (fluid.cavity === 'notKnown') return { cavity: { state: 'unknown', since }, inside: notKnown };
  const fill = {
    entryId: entry.id,
    visitId: null,
    solutionId: fluid.solutionId,
    filledMl: fluid.filledMl,
    startedAt: null,
    endedAt: fluid.fillEndedAt,
    revisionId: null,
    itemId: null,
    orderId: null,
    additives: [],
  };
  return {
    cavity: { state: 'holding', since: fluid.fillEndedAt ?? since, fills: [fill] },
    inside: fluid.filledMl === null ? notKnown : start,
  };
}

/** One entry in each ward, at one instant: whichever is folded first, the stay and the fluid go on. */
export const applyTransferredOut: Apply<'transferredOut'> = (state, entry) => {
  const { toWardId, fluid } = entry.payload;
  const moved = changeStay(state, { wardId: toWardId });
  return { ...moved, fluidHandover: handoverOf(entry, fluid, { ward: toWardId }) };
};

const handoverOf = (
  { happenedAt: at, author: by }: Entry,
  fluid: FluidHandover | undefined,
  to: FluidHandedOver['to'],
): FluidHandedOver | null => (fluid === undefined ? null : { ...fluid, at, by, to });

export const applyTransferredIn: Apply<'transferredIn'> = (state, entry) => {
  const { bed } = entry.payload;
  const moved = changeStay(state, { wardId: entry.wardId, bed, offWard: null });
  return { ...moved, assignment: null };
};

export const applyMovedBed: Apply<'movedBed'> = (state, entry) => changeStay(state, { bed: entry.payload.bed });

export const applyLeftWard: Apply<'leftWard'> = (state, entry) => {
  const { where, backAbout } = entry.payload;
  return changeStay(state, { offWard: { since: entry.happenedAt, where, backAbout } });
};

export const applyReturned: Apply<'returned'> = (state) => changeStay(state, { offWard: null });

export const applyDischarged: Apply<'discharged'> = (state, entry) => {
  const { to, fluid } = entry.payload;
  const fluidHandover = handoverOf(entry, fluid, { place: to });
  return { ...state, stay: null, assignment: null, fluidHandover };
};

export const applyAssigned: Apply<'assigned'> = (state, entry) => {
  const { accountId, name, from, to } = entry.payload;
  return { ...state, assignment: accountId === null ? null : { accountId, name: name ?? '', from, to } };
};

const changeStay = (state: BedsideState, change: Partial<StayState>): BedsideState =>
  state.stay === null ? state : { ...state, stay: { ...state.stay, ...change } };
