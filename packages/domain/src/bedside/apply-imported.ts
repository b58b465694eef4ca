import type { DrainOut } from '../dwell/dwell.ts';
import type { Entry } from '../record/entry.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Apply } from './apply.ts';
import { addFill, beginDrain, endDwell } from './fluid.ts';
import type { BedsideState } from './state.ts';

/** A whole past exchange of a flow sheet: the drain of what was inside, then the fill. It names no flow and no visit. */
export const applyImported: Apply<'imported'> = (state, entry, policy) =>
  importedFill(importedDrain(state, entry, policy), entry);

function importedDrain(state: BedsideState, entry: Entry<'imported'>, policy: WardPolicy): BedsideState {
  const { drainStartedAt, drainEndedAt, drainedMl, appearance } = entry.payload;
  if (drainStartedAt === null && drainEndedAt === null && drainedMl === null) return state;
  const endedAt = drainEndedAt ?? drainStartedAt ?? entry.happenedAt;
  const drain: DrainOut = {
    entryId: entry.id,
    visitId: entry.visitId ?? entry.id,
    startedAt: drainStartedAt ?? endedAt,
    endedAt,
    drainedMl,
    readingMl: null,
    exactMl: drainedMl,
    flow: null,
    appearance,
  };
  return endDwell(beginDrain(state, drain, true, policy));
}

function importedFill(state: BedsideState, entry: Entry<'imported'>): BedsideState {
  const { fillStartedAt, fillEndedAt, filledMl, solutionId } = entry.payload;
  if (fillStartedAt === null && fillEndedAt === null && filledMl === null) return state;
  return addFill(state, {
    entryId: entry.id,
    visitId: null,
    solutionId,
    filledMl,
    startedAt: fillStartedAt,
    endedAt: fillEndedAt ?? entry.happenedAt,
    revisionId: null,
    itemId: null,
    orderId: null,
    additives: [],
  });
}
