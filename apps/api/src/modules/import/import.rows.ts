import type { Appearance, EpochMs, WardSettings } from '@slackwater/domain';

/** The columns of a flow sheet, in any order, each exactly once: README, "Bringing a flow sheet in". */
export const COLUMNS = [
  'ward',
  'hospital_number',
  'drain_start',
  'drain_end',
  'drained_ml',
  'appearance',
  'fill_start',
  'fill_end',
  'filled_ml',
  'solution',
  'note',
] as const;

export type Column = (typeof COLUMNS)[number];
export type RawRow = Readonly<Record<Column, string>>;

/** One past exchange as the sheet tells it; null = the sheet says nothing, never zero. */
export type SheetRow = {
  line: number;
  ward: string;
  hospitalNumber: string;
  drainStartedAt: EpochMs | null;
  drainEndedAt: EpochMs | null;
  drainedMl: number | null;
  appearance: readonly Appearance[];
  fillStartedAt: EpochMs | null;
  fillEndedAt: EpochMs | null;
  filledMl: number | null;
  solutionId: string | null;
  note: string | null;
};

/** What is wrong with one field of one line. */
export type RowProblem = { line: number; column: Column | 'line'; value: string; allowed: string; message: string };

const APPEARANCES: readonly Appearance[] = ['clear', 'cloudy', 'fibrin', 'pink', 'bloody', 'milky', 'brown', 'green'];
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|[+-]\d{2}:\d{2})$/;
const LONGEST_NOTE = 500;
const LONGEST_NUMBER = 40;

/** Reads the fields of one line; what refers to other lines or to the record is judged in the database. */
export function readRow(
  raw: RawRow,
  line: number,
  settings: WardSettings,
  latest: EpochMs,
): { row: SheetRow; problems: readonly RowProblem[] } {
  const problems: RowProblem[] = [];
  const problem = (column: Column, allowed: string, message: string) => {
    problems.push({ line, column, value: raw[column].slice(0, 100), allowed, message });
    return null;
  };

  const instant = (column: Column): EpochMs | null => {
    const text = raw[column];
    if (text === '') return null;
    const allowed = 'ISO 8601 with offset, such as 2026-11-25T08:10+00:00, not in the future';
    const at = INSTANT.test(text) ? parsedInstant(text) : null;
    if (at === null) return problem(column, allowed, 'is not a date and time with its offset');
    if (at > latest) return problem(column, allowed, 'lies in the future');
    return at;
  };

  const volume = (column: Column, least: number, most: number): number | null => {
    const text = raw[column];
    if (text === '') return null;
    const allowed = `${least} to ${most} mL, digits only`;
    if (!/^\d{1,6}$/.test(text)) return problem(column, allowed, 'is not a whole number of mL');
    const ml = Number(text);
    return ml < least || ml > most ? problem(column, allowed, 'is outside the allowed range') : ml;
  };

  const appearance = raw.appearance === '' ? [] : raw.appearance.split('+');
  if (appearance.some((word) => !APPEARANCES.includes(word as Appearance))) {
    problem('appearance', `${APPEARANCES.join(', ')}; several joined by +`, 'is not an appearance');
  }
  if (raw.ward === '') problem('ward', 'the id of a ward', 'is missing');
  if (raw.hospital_number === '' || raw.hospital_number.length > LONGEST_NUMBER) {
    problem('hospital_number', `1 to ${LONGEST_NUMBER} characters`, 'is missing or too long');
  }
  if (raw.note.length > LONGEST_NOTE) problem('note', `at most ${LONGEST_NOTE} characters`, 'is too long');

  const row: SheetRow = {
    line,
    ward: raw.ward,
    hospitalNumber: raw.hospital_number,
    drainStartedAt: instant('drain_start'),
    drainEndedAt: instant('drain_end'),
    drainedMl: volume('drained_ml', 0, settings.drainedMostMl),
    appearance: appearance as Appearance[],
    fillStartedAt: instant('fill_start'),
    fillEndedAt: instant('fill_end'),
    filledMl: volume('filled_ml', 1, settings.filledMostMl),
    solutionId: raw.solution === '' ? null : raw.solution,
    note: raw.note === '' ? null : raw.note,
  };
  if (problems.length === 0) judgeHalves(row, problem);
  return { row, problems };
}

function parsedInstant(text: string): EpochMs | null {
  try {
    // Temporal refuses the 31st of June; Date would roll it into July.
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch {
    return null;
  }
}

function judgeHalves(row: SheetRow, problem: (column: Column, allowed: string, message: string) => null): void {
  const hasDrain = row.drainStartedAt !== null || row.drainEndedAt !== null;
  const hasFill = row.fillStartedAt !== null || row.fillEndedAt !== null;
  if (!hasDrain && !hasFill) problem('drain_end', 'a drain, a fill, or both', 'is missing, and so is fill_end');
  if (hasDrain && row.drainStartedAt === null) problem('drain_start', 'given with drain_end', 'is missing');
  if (hasDrain && row.drainEndedAt === null) problem('drain_end', 'given with drain_start', 'is missing');
  if (!hasDrain && row.drainedMl !== null)
    problem('drained_ml', 'empty where there is no drain', 'stands without a drain');
  if (!hasDrain && row.appearance.length > 0)
    problem('appearance', 'empty where there is no drain', 'stands without a drain');
  if (hasFill && row.fillStartedAt === null) problem('fill_start', 'given with fill_end', 'is missing');
  if (hasFill && row.fillEndedAt === null) problem('fill_end', 'given with fill_start', 'is missing');
  if (hasFill && row.solutionId === null) problem('solution', 'a solution of the formulary', 'is missing');
  if (!hasFill && row.filledMl !== null) problem('filled_ml', 'empty where there is no fill', 'stands without a fill');
  if (!hasFill && row.solutionId !== null) problem('solution', 'empty where there is no fill', 'stands without a fill');

  const order = [row.drainStartedAt, row.drainEndedAt, row.fillStartedAt, row.fillEndedAt];
  const columns = ['drain_start', 'drain_end', 'fill_start', 'fill_end'] as const;
  let before = Number.NEGATIVE_INFINITY;
  for (const [index, at] of order.entries()) {
    if (at === null) continue;
    if (at < before)
      problem(
        columns[index] as Column,
        'drain_start ≤ drain_end ≤ fill_start ≤ fill_end',
        'lies before the time to its left',
      );
    before = at;
  }
}
