import { type Chance, chance } from './chance.ts';
import { BY_HAND, type Cells } from './month-by-hand.ts';
import { PEOPLE, type Person, type Slot } from './month-people.ts';

// One invented month of Kestrel Ward as a flow sheet: no person, place or number in it is real. The same seed always
// writes the same file; tests/support/write-kestrel-month.ts puts it under shared/scenario/.

const SEED = 20261001;
/** Europe/London left summer time at 2026-10-25T01:00Z (tz database). */
const SUMMER_ENDS_AT = Date.UTC(2026, 9, 25, 1);
const MINUTE_MS = 60_000;

/** What came of a dwell beyond its fill: mean and spread, mL, roughly as published means for four to ten hours. */
const CAME_OFF: Record<string, readonly [mean: number, sd: number]> = {
  'glucose-1.36': [40, 120],
  'glucose-2.27': [260, 140],
  'glucose-3.86': [620, 180],
  'icodextrin-7.5': [430, 160],
};

const MONTH_COLUMNS =
  'ward,hospital_number,drain_start,drain_end,drained_ml,appearance,fill_start,fill_end,filled_ml,solution,note';

/** The month as the two files that `npm run import` takes. */
export function kestrelMonth(): { sheet: string; people: string } {
  const random = chance(SEED);
  const rows = PEOPLE.flatMap((one) => rowsOf(one, random));
  // as a ward writes its sheets: by time, not by patient
  rows.sort((a, b) => a.startedAt - b.startedAt || (a.line < b.line ? -1 : 1));
  const people = PEOPLE.map(({ number, family, given, born, gender }) =>
    [number, family, given, born, gender].join(','),
  );
  return {
    sheet: `${[MONTH_COLUMNS, ...rows.map(({ line }) => line)].join('\n')}\n`,
    people: `${['hospital_number,family,given,date_of_birth,gender', ...people].join('\n')}\n`,
  };
}

function rowsOf({ number, from, to, day }: Person, random: Chance): { startedAt: number; line: string }[] {
  const rows: { startedAt: number; line: string }[] = [];
  // the first row drains what came with the patient, of which the sheet knows nothing
  let inside: Slot | null | 'notKnown' = from === 1 ? 'notKnown' : null;
  for (let date = from; date <= to; date += 1) {
    for (const planned of day) {
      const startedAt = instantAt(date, planned.at) + Math.round(random.between(-20, 20)) * MINUTE_MS;
      const isLast = date === to && planned === day.at(-1);
      const fills = isLast || planned.solution === null ? null : planned;
      const cells = cellsOf(startedAt, inside, fills, random);
      const key = `${number} 2026-10-${String(date).padStart(2, '0')} ${planned.at}`;
      const told = { ...cells, ...BY_HAND[key] };
      rows.push({ startedAt: Date.parse(told.drainStart || told.fillStart), line: lineOf(number, told) });
      inside = fills;
    }
  }
  return rows;
}

function cellsOf(startedAt: number, inside: Slot | null | 'notKnown', fills: Slot | null, random: Chance): Cells {
  const drainMinutes = Math.round(random.between(14, 26));
  const fillMinutes = Math.round(random.between(8, 13));
  const drainedAt = startedAt + drainMinutes * MINUTE_MS;
  const fillAt = inside === null ? startedAt : drainedAt + 5 * MINUTE_MS;
  const drains = inside !== null;
  return {
    drainStart: drains ? local(startedAt) : '',
    drainEnd: drains ? local(drainedAt) : '',
    drainedMl: drains ? String(drained(inside, random)) : '',
    appearance: drains ? 'clear' : '',
    fillStart: fills ? local(fillAt) : '',
    fillEnd: fills ? local(fillAt + fillMinutes * MINUTE_MS) : '',
    filledMl: fills ? String(fills.fillMl) : '',
    solution: fills?.solution ?? '',
    note: '',
  };
}

function drained(inside: Slot | 'notKnown', random: Chance): number {
  if (inside === 'notKnown') return 10 * Math.round(random.normal(205, 12));
  const [mean, sd] = CAME_OFF[inside.solution ?? ''] ?? [0, 0];
  return 10 * Math.round((inside.fillMl + (inside.fillMl / 2000) * random.normal(mean, sd)) / 10);
}

const lineOf = (number: string, told: Cells): string =>
  [
    'kestrel',
    number,
    told.drainStart,
    told.drainEnd,
    told.drainedMl,
    told.appearance,
    told.fillStart,
    told.fillEnd,
    told.filledMl,
    told.solution,
    quoted(told.note),
  ].join(',');

const quoted = (text: string): string => (/[",]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** A clock time of an October day in London; none of those planned lies in the hour that comes twice. */
function instantAt(date: number, clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  const asSummer = Date.UTC(2026, 9, date, hours - 1, minutes);
  return asSummer < SUMMER_ENDS_AT ? asSummer : asSummer + 60 * MINUTE_MS;
}

function local(at: number): string {
  const isSummer = at < SUMMER_ENDS_AT;
  const wall = new Date(isSummer ? at + 60 * MINUTE_MS : at).toISOString().slice(0, 16);
  return `${wall}${isSummer ? '+01:00' : '+00:00'}`;
}
