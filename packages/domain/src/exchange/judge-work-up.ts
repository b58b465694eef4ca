import type { BedsideState } from '../bedside/state.ts';
import { cellsPerUl } from '../peritonitis/cell-count-units.ts';
import { dwellMinutesOfDrain } from '../peritonitis/opens-work-up.ts';
import type { WorkUp } from '../peritonitis/work-up.ts';
import { outOfRange } from '../prescription/ranges.ts';
import type { Payloads } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { dateAt } from '../time/zone.ts';
import { checkDate, dayNumber, isoDate } from '../units/dates.ts';
import { type Judge, refusal } from './judge-types.ts';

type Found = readonly (Problem | null)[];

/** More samples or reports than any work-up has: the bedside stays bounded. */
const MOST_SAMPLES = 20;
const MOST_RESULTS = 40;
const MOST_ANTIBIOTICS = 40;

/** The typed ranges of a sample (common practice). */
export const sampleProblems = ({ tests, bottles, dwellMinutes }: Payloads['sampleTaken']): Found => [
  tests.length === 0 ? refusal('missing', 'tests is empty; say what was sent.', 'tests', [], 'one or more') : null,
  outOfRange('bottles', bottles, 0, 10, ''),
  dwellMinutes === null ? null : outOfRange('dwellMinutes', dwellMinutes, 0, 48 * 60, 'min'),
];

/**
 * The typed ranges of a report. The unit always travels with the count: 100/µL = 100 × 10⁶/L = 0.1 × 10⁹/L, and the
 * guideline itself once printed 10⁹ for 10⁶ (corrected in 2024).
 */
export function resultProblems(result: Payloads['resultReported']): Found {
  const { whiteCells, polymorphPercent, gramStain, culture, note } = result;
  const saysNothing = [whiteCells, polymorphPercent, gramStain, culture, note].every((one) => one === null);
  const perUl = whiteCells === null ? null : cellsPerUl(whiteCells.value, whiteCells.unit).value;
  return [
    saysNothing ? refusal('missing', 'The report says nothing.', 'whiteCells', null, 'at least one result') : null,
    whiteCells === null ? null : outOfRange('whiteCells.value in cells/µL', perUl ?? Number.NaN, 0, 1_000_000, '/µL'),
    polymorphPercent === null ? null : outOfRange('polymorphPercent', polymorphPercent, 0, 100, '%'),
    polymorphPercent !== null && whiteCells === null
      ? refusal('missing', 'A share of polymorphs needs its count.', 'whiteCells', null, 'a count with its unit')
      : null,
    culture?.state === 'grown' && culture.organisms.every((one) => one.trim() === '')
      ? refusal('missing', 'Name what has grown.', 'culture.organisms', culture.organisms, 'one or more')
      : null,
  ];
}

const workUpOf = (state: BedsideState, id: string): WorkUp | null =>
  state.workUps.find((workUp) => workUp.id === id) ?? null;

const unknown = (id: string): readonly Problem[] => [
  refusal('no-such-work-up', 'There is no work-up of that id at this bedside.', 'payload.workUpId', id),
];

/** A conclusion ends a work-up; only where peritonitis was found do counts of the days that follow belong to it. */
const endedProblems = (workUp: WorkUp): readonly Problem[] =>
  workUp.closed === null || workUp.closed.conclusion === 'peritonitis'
    ? []
    : [refusal('work-up-closed', 'The work-up was closed.', 'payload.workUpId', workUp.id, 'an open work-up')];

export const sampleTakenRule: Judge<'sampleTaken'> = (state, { payload }) => {
  const workUp = workUpOf(state, payload.workUpId);
  if (workUp === null) return unknown(payload.workUpId);
  const problems = [...endedProblems(workUp), ...dwellProblems(state, workUp, payload)];
  if (workUp.samples.length < MOST_SAMPLES) return problems;
  return [...problems, refusal('too-many', `The work-up has ${MOST_SAMPLES} samples.`, 'payload.workUpId')];
};

/** The dwell is the record's, where the record has it. */
function dwellProblems(state: BedsideState, workUp: WorkUp, payload: Payloads['sampleTaken']): readonly Problem[] {
  const { drainId, dwellMinutes } = payload;
  if (drainId === null) return [];
  const recorded = dwellMinutesOfDrain(state, drainId) ?? (drainId === workUp.drainId ? workUp.dwellMinutes : null);
  if (recorded === null || dwellMinutes === recorded) return [];
  const message = `dwellMinutes is ${dwellMinutes}; the record has ${recorded} min before that drain.`;
  return [refusal('dwell-differs', message, 'payload.dwellMinutes', dwellMinutes, `${recorded}`)];
}

export const resultReportedRule: Judge<'resultReported'> = (state, { payload }) => {
  const workUp = workUpOf(state, payload.workUpId);
  if (workUp === null) return unknown(payload.workUpId);
  const { sampleId } = payload;
  const noSuchSample =
    sampleId === null || workUp.samples.some(({ id }) => id === sampleId)
      ? []
      : [refusal('no-such-sample', 'The work-up has no sample of that id.', 'payload.sampleId', sampleId)];
  const problems = [...endedProblems(workUp), ...noSuchSample];
  if (workUp.results.length < MOST_RESULTS) return problems;
  return [...problems, refusal('too-many', `The work-up has ${MOST_RESULTS} reports.`, 'payload.workUpId')];
};

/** Begun at most so long before the suspect drain (common practice: older courses were for something else). */
const BEGUN_BEFORE_DAYS = 90;

export const antibioticStartedRule: Judge<'antibioticStarted'> = (state, { payload, happenedAt }, { policy }) => {
  const workUp = workUpOf(state, payload.workUpId);
  if (workUp === null) return unknown(payload.workUpId);
  const earliest = isoDate(dayNumber(dateAt(workUp.drainStartedAt, policy.zone)) - BEGUN_BEFORE_DAYS);
  const bounds = { from: earliest, to: dateAt(happenedAt, policy.zone) };
  const problems = [...endedProblems(workUp), ...checkDate('payload.startedOn', payload.startedOn, bounds)];
  if (workUp.antibiotics.length < MOST_ANTIBIOTICS) return problems;
  const message = `The work-up has ${MOST_ANTIBIOTICS} words about antibiotics.`;
  return [...problems, refusal('too-many', message, 'payload.workUpId')];
};

export const workUpClosedRule: Judge<'workUpClosed'> = (state, { payload, happenedAt }) => {
  const workUp = workUpOf(state, payload.workUpId);
  if (workUp === null) return unknown(payload.workUpId);
  if (workUp.closed !== null) {
    return [refusal('work-up-closed', 'The work-up was closed already.', 'payload.workUpId', workUp.id)];
  }
  if (happenedAt >= workUp.drainStartedAt) return [];
  return [refusal('out-of-order', 'The time lies before the drain that opened the work-up.', 'happenedAt', happenedAt)];
};
