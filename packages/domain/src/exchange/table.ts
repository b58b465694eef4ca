import type { Step, VisitState } from './steps.ts';

/** `why` says, in words for the nurse, what has to come first. */
export type Rule = { allowed: true } | { allowed: false; code: string; why: string };

const YES: Rule = { allowed: true };
const no = (code: string, why: string): Rule => ({ allowed: false, code, why });

const NO_VISIT = no('no-visit', 'No visit is under way: prepare one first.');
const UNDER_WAY = no('visit-under-way', 'A visit is under way: close or stop it first.');
const NOT_CONNECTED = no('not-connected', 'Not connected yet.');
const CONNECTED = no('connected-already', 'Already connected.');
const DRAINING = no('drain-runs', 'A drain is running: end it first.');
const FILLING = no('fill-runs', 'A fill is running: end it first.');
const NO_DRAIN = no('no-drain-runs', 'No drain is running.');
const NO_FILL = no('no-fill-runs', 'No fill is running.');
const NOTHING_DONE = no('nothing-done', 'Nothing was drained or filled: stop the visit with a reason.');

/**
 * What may be recorded next, by where the visit stands. Drain again and leave empty from `drained`; a second bag, the
 * rest of a stopped fill, and a rinse (drain at once) from `closing`; fill only and drain only from `connected`; stop at
 * any stage; a stopped visit is resumed from `none`. What depends on more than the stage (what is inside, the
 * prescription, the ranges) the judge asks.
 */
export const EXCHANGE_TABLE: Record<VisitState, Record<Step, Rule>> = {
  none: {
    prepare: YES,
    connect: NO_VISIT,
    startDrain: NO_VISIT,
    endDrain: NO_VISIT,
    startFill: NO_VISIT,
    endFill: NO_VISIT,
    close: NO_VISIT,
    stop: NO_VISIT,
    resume: YES,
  },
  preparing: {
    prepare: UNDER_WAY,
    connect: YES,
    startDrain: NOT_CONNECTED,
    endDrain: NOT_CONNECTED,
    startFill: NOT_CONNECTED,
    endFill: NOT_CONNECTED,
    close: NOT_CONNECTED,
    stop: YES,
    resume: UNDER_WAY,
  },
  connected: {
    prepare: UNDER_WAY,
    connect: CONNECTED,
    startDrain: YES,
    endDrain: NO_DRAIN,
    startFill: YES,
    endFill: NO_FILL,
    close: NOTHING_DONE,
    stop: YES,
    resume: UNDER_WAY,
  },
  draining: {
    prepare: UNDER_WAY,
    connect: CONNECTED,
    startDrain: DRAINING,
    endDrain: YES,
    startFill: DRAINING,
    endFill: NO_FILL,
    close: DRAINING,
    stop: YES,
    resume: UNDER_WAY,
  },
  drained: {
    prepare: UNDER_WAY,
    connect: CONNECTED,
    startDrain: YES,
    endDrain: NO_DRAIN,
    startFill: YES,
    endFill: NO_FILL,
    close: YES,
    stop: YES,
    resume: UNDER_WAY,
  },
  filling: {
    prepare: UNDER_WAY,
    connect: CONNECTED,
    startDrain: FILLING,
    endDrain: NO_DRAIN,
    startFill: FILLING,
    endFill: YES,
    close: FILLING,
    stop: YES,
    resume: UNDER_WAY,
  },
  closing: {
    prepare: UNDER_WAY,
    connect: CONNECTED,
    startDrain: YES,
    endDrain: NO_DRAIN,
    startFill: YES,
    endFill: NO_FILL,
    close: YES,
    stop: YES,
    resume: UNDER_WAY,
  },
};

/** Whether a step may be taken from a state of the visit; if not, why, in words. */
export const mayTake = (state: VisitState, step: Step): Rule => EXCHANGE_TABLE[state][step];
