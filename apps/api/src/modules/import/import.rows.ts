import {
  APPEARANCES,
  type Appearance,
  type EpochMs,
  HOUR_MS,
  type Payloads,
  type WardSettings,
} from '@slackwater/domain';
import { uuidOfContent } from '../../record/entry-id.ts';
import { COLUMNS, type Column, type RawRow } from './import.columns.ts';
import type { RowProblem } from './import.problems.ts';

/** One past exchange, ready to be staged. In the payload null = the sheet says nothing, never zero. */
export type SheetRow = {
  line: number;
  /** The same content always has the same id, so the same file twice changes nothing. */
  id: string;
  wardId: string;
  hospitalNumber: string;
  startedAt: EpochMs;
  endedAt: EpochMs;
  payload: Payloads['imported'];
};

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|[+-]\d{2}:\d{2})$/;
/** Peritoneal dialysis at the bedside is younger than the first of these years; a typed century is caught. */
const EARLIEST = Date.UTC(1970, 0, 1);
/** From the first instant of a row to its last; common practice: an exchange takes under an hour. */
const LONGEST_EXCHANGE_HOURS = 24;
const LONGEST_NOTE = 500;
const LONGEST_NUMBER = 40;

type Told = (column: Column, allowed: string, message: string) => null;

/**
 * Reads the fields of one line; what refers to other lines or to the record is judged in the database.
 * @param latest nothing of the past lies after it
 * @returns the row, or null and everything that is wrong with it
 */
export function readRow(
  siteId: string,
  raw: RawRow,
  line: number,
  settings: Pick<WardSettings, 'drainedMostMl' | 'filledMostMl'>,
  latest: EpochMs,
): { row: SheetRow | null; problems: readonly RowProblem[] } {
  const problems: RowProblem[] = [];
  const problem: Told = (column, allowed, message) => {
    problems.push({ line, column, value: raw[column].slice(0, 100), allowed, message });
    return null;
  };
  for (const column of COLUMNS) {
    if (hasControl(raw[column])) problem(column, 'text without control characters or line breaks', 'holds one');
  }
  if (raw.ward === '') problem('ward', 'the id of a ward', 'is missing');
  if (raw.hospital_number === '' || raw.hospital_number.length > LONGEST_NUMBER) {
    problem('hospital_number', `1 to ${LONGEST_NUMBER} characters`, 'is missing or too long');
  }
  if (raw.note.length > LONGEST_NOTE) problem('note', `at most ${LONGEST_NOTE} characters`, 'is too long');

  const instant = (column: Column) => readInstant(raw[column], column, latest, problem);
  const payload: Payloads['imported'] = {
    drainStartedAt: instant('drain_start'),
    drainEndedAt: instant('drain_end'),
    drainedMl: readVolume(raw.drained_ml, 'drained_ml', 0, settings.drainedMostMl, problem),
    appearance: readAppearance(raw.appearance, problem),
    fillStartedAt: instant('fill_start'),
    fillEndedAt: instant('fill_end'),
    filledMl: readVolume(raw.filled_ml, 'filled_ml', 1, settings.filledMostMl, problem),
    solutionId: raw.solution === '' ? null : raw.solution,
    note: raw.note === '' ? null : raw.note,
  };
  if (problems.length === 0) judgeHalves(payload, problem);
  if (problems.length === 0) judgeOrder(payload, problem);
  const startedAt = payload.drainStartedAt ?? payload.fillStartedAt;
  const endedAt = payload.fillEndedAt ?? payload.drainEndedAt;
  if (problems.length > 0 || startedAt === null || endedAt === null) return { row: null, problems };
  const id = uuidOfContent(JSON.stringify([siteId, raw.ward, raw.hospital_number, payload]));
  const row = { line, id, wardId: raw.ward, hospitalNumber: raw.hospital_number, startedAt, endedAt, payload };
  return { row, problems };
}

/** Whether a field holds a control character: a sheet has one line a row, and Postgres no NUL. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: it is what is looked for
export const hasControl = (text: string): boolean => /[\u0000-\u001f\u007f]/.test(text);

function readInstant(text: string, column: Column, latest: EpochMs, problem: Told): EpochMs | null {
  if (text === '') return null;
  const at = INSTANT.test(text) ? parsed(text) : null;
  const wrong = whatIsWrong(at, latest);
  if (wrong === null) return at;
  // put into words only where it is wrong: four times a row it would cost more than reading the row
  const allowed = `ISO 8601 with offset, such as 2026-11-25T08:10+00:00, from ${iso(EARLIEST)} to ${iso(latest)}`;
  return problem(column, allowed, wrong);
}

function whatIsWrong(at: EpochMs | null, latest: EpochMs): string | null {
  if (at === null) return 'is not a date and time with its offset';
  if (at > latest) return 'lies in the future';
  return at < EARLIEST ? 'lies too far back' : null;
}

const iso = (at: EpochMs): string => `${new Date(at).toISOString().slice(0, 16)}Z`;

function parsed(text: string): EpochMs | null {
  try {
    // Temporal refuses the 31st of June; Date would roll it into July.
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch {
    return null;
  }
}

function readVolume(text: string, column: Column, least: number, most: number, problem: Told): number | null {
  if (text === '') return null;
  const allowed = `${least} to ${most} mL, digits only; empty = not measured`;
  if (!/^\d{1,6}$/.test(text)) return problem(column, allowed, 'is not a whole number of mL');
  const ml = Number(text);
  return ml < least || ml > most ? problem(column, allowed, 'is outside the allowed range') : ml;
}

/** In the order of the list, each once, so that the same look always has the same content. */
function readAppearance(text: string, problem: Told): readonly Appearance[] {
  if (text === '') return [];
  const words = text.split('+');
  if (words.some((word) => !APPEARANCES.includes(word as Appearance))) {
    problem('appearance', `${APPEARANCES.join(', ')}; several joined by +`, 'is not an appearance');
  }
  return APPEARANCES.filter((appearance) => words.includes(appearance));
}

/** A drain and a fill each have both their ends; nothing of them stands without them. */
function judgeHalves(payload: Payloads['imported'], problem: Told): void {
  const { drainStartedAt, drainEndedAt, drainedMl, appearance, fillStartedAt, fillEndedAt, filledMl, solutionId } =
    payload;
  const drains = drainStartedAt !== null || drainEndedAt !== null;
  const fills = fillStartedAt !== null || fillEndedAt !== null;
  if (!drains && !fills) problem('drain_end', 'a drain, a fill, or both', 'is missing, and so is fill_end');
  if (drains && drainStartedAt === null) problem('drain_start', 'given with drain_end', 'is missing');
  if (drains && drainEndedAt === null) problem('drain_end', 'given with drain_start', 'is missing');
  if (!drains && drainedMl !== null) problem('drained_ml', 'empty where there is no drain', 'stands without a drain');
  if (!drains && appearance.length > 0)
    problem('appearance', 'empty where there is no drain', 'stands without a drain');
  if (fills && fillStartedAt === null) problem('fill_start', 'given with fill_end', 'is missing');
  if (fills && fillEndedAt === null) problem('fill_end', 'given with fill_start', 'is missing');
  if (fills && solutionId === null) problem('solution', 'a solution of the formulary', 'is missing');
  if (!fills && filledMl !== null) problem('filled_ml', 'empty where there is no fill', 'stands without a fill');
  if (!fills && solutionId !== null) problem('solution', 'empty where there is no fill', 'stands without a fill');
}

const IN_ORDER = [
  ['drain_start', 'drainStartedAt'],
  ['drain_end', 'drainEndedAt'],
  ['fill_start', 'fillStartedAt'],
  ['fill_end', 'fillEndedAt'],
] as const;

function judgeOrder(payload: Payloads['imported'], problem: Told): void {
  let first: EpochMs | null = null;
  let before = Number.NEGATIVE_INFINITY;
  for (const [column, field] of IN_ORDER) {
    const at = payload[field];
    if (at === null) continue;
    first ??= at;
    if (at < before) {
      problem(column, 'drain_start ≤ drain_end ≤ fill_start ≤ fill_end', 'lies before the time to its left');
    } else if (at - first > LONGEST_EXCHANGE_HOURS * HOUR_MS) {
      problem(column, `within ${LONGEST_EXCHANGE_HOURS} h of the row's first time`, 'lies too long after it');
    }
    before = at;
  }
}
