import { type Chance, chance } from './chance.ts';

// One invented month of Kestrel Ward as a flow sheet: no person, place or number in it is real. The same seed always
// writes the same file; tests/support/write-kestrel-month.ts puts it under shared/scenario/.

const SEED = 20261001;
/** Europe/London left summer time at 2026-10-25T01:00Z (tz database). */
const SUMMER_ENDS_AT = Date.UTC(2026, 9, 25, 1);
const MINUTE_MS = 60_000;

/** What is filled at a clock time of the day; null: the cavity stays empty until the next. */
type Slot = { at: string; solution: string | null; fillMl: number };

type Person = {
  number: string;
  family: string;
  given: string;
  born: string;
  gender: string;
  /** Days of October on which the first and the last row stand. */
  from: number;
  to: number;
  day: readonly Slot[];
};

/** What came of a dwell beyond its fill: mean and spread, mL, roughly as published means for four to ten hours. */
const CAME_OFF: Record<string, readonly [mean: number, sd: number]> = {
  'glucose-1.36': [40, 120],
  'glucose-2.27': [260, 140],
  'glucose-3.86': [620, 180],
  'icodextrin-7.5': [430, 160],
};

const slot = (at: string, solution: string | null, fillMl: number): Slot => ({ at, solution, fillMl });

/** Four bags a day, the stronger one overnight. */
const fourBags = (fillMl: number, overnight = 'glucose-2.27'): readonly Slot[] => [
  slot('07:40', 'glucose-1.36', fillMl),
  slot('12:20', 'glucose-1.36', fillMl),
  slot('17:10', 'glucose-2.27', fillMl),
  slot('22:15', overnight, fillMl),
];

const threeBags = (fillMl: number): readonly Slot[] => [
  slot('08:05', 'glucose-1.36', fillMl),
  slot('14:30', 'glucose-2.27', fillMl),
  slot('21:45', 'icodextrin-7.5', fillMl),
];

/** Filled by day, empty at night. */
const dryAtNight = (fillMl: number): readonly Slot[] => [
  slot('08:30', 'glucose-2.27', fillMl),
  slot('13:00', 'glucose-1.36', fillMl),
  slot('20:30', null, 0),
];

const person = (
  [number, family, given, born, gender]: readonly [string, string, string, string, string],
  day: readonly Slot[],
  from = 1,
  to = 31,
): Person => ({ number: `AP 30${number}`, family, given, born, gender, from, to, day });

const PEOPLE: readonly Person[] = [
  person(['0101', 'ARKWRIGHT-DEAN', 'Sunniva', '1951-03-14', 'female'], fourBags(2000)),
  person(['0118', 'BALODIS', 'Eriks', '1944-09-02', 'male'], fourBags(2000, 'glucose-3.86')),
  person(['0126', 'CHUKWU-PERRY', 'Ifeoma', '1968-12-21', 'female'], fourBags(2500)),
  person(['0133', 'DELACOURT', 'Anselm', '1939-05-30', 'male'], threeBags(2000)),
  person(['0140', 'EASTGATE', 'Philippa', '1957-08-08', 'female'], threeBags(1500)),
  person(['0157', 'FARROKHZAD', 'Kamran', '1961-01-19', 'male'], dryAtNight(2000)),
  person(['0164', 'GWYNNE-ADAMS', 'Tegan', '1949-11-11', 'female'], fourBags(1500)),
  person(['0171', 'HALVORSEN', 'Torbjorn', '1953-04-25', 'male'], fourBags(2000), 3),
  person(['0189', 'INGRAM-SATO', 'Keiko', '1946-07-17', 'female'], threeBags(2000), 5),
  person(['0195', 'JELLICOE', 'Barnaby', '1972-10-06', 'male'], fourBags(2500, 'icodextrin-7.5')),
  person(['0202', 'KOWALCZYK', 'Jadwiga', '1942-02-28', 'female'], dryAtNight(1500)),
  person(['0219', 'LAMPTEY', 'Kojo', '1959-06-03', 'male'], fourBags(2000)),
  person(['0226', 'MERRIDEW', 'Clemency', '1937-12-09', 'female'], threeBags(1500), 1, 19),
  person(['0233', 'NORTHOLT', 'Gideon', '1964-03-27', 'male'], fourBags(2000, 'glucose-3.86'), 1, 24),
  person(['0240', 'OYELARAN', 'Folake', '1955-09-13', 'female'], fourBags(2000)),
  person(['0258', 'PENHALIGON', 'Jory', '1948-01-05', 'male'], threeBags(2000), 8),
  person(['0265', 'QUARTERMAINE', 'Isabeau', '1970-05-22', 'female'], fourBags(2500)),
  person(['0272', 'RASMUSSEN-OKE', 'Dagny', '1962-08-30', 'female'], dryAtNight(2000), 2),
  person(['0280', 'STANNARD', 'Lucian', '1941-10-18', 'male'], fourBags(1500), 1, 28),
  person(['0296', 'THISTLEWOOD', 'Maud', '1936-04-01', 'female'], threeBags(1500)),
  person(['0303', 'UMARJI', 'Danyal', '1966-11-24', 'male'], fourBags(2000), 12),
  person(['0311', 'VANTERPOOL', 'Hezekiah', '1950-02-07', 'male'], fourBags(2000, 'icodextrin-7.5')),
  person(['0328', 'WETHERELL', 'Ottoline', '1958-07-29', 'female'], threeBags(2000), 1, 15),
  person(['0335', 'YARDLEY-CRUZ', 'Mateus', '1973-09-16', 'male'], fourBags(2500), 17),
];

export const MONTH_COLUMNS =
  'ward,hospital_number,drain_start,drain_end,drained_ml,appearance,fill_start,fill_end,filled_ml,solution,note';

type Cells = {
  drainStart: string;
  drainEnd: string;
  drainedMl: string;
  appearance: string;
  fillStart: string;
  fillEnd: string;
  filledMl: string;
  solution: string;
  note: string;
};

/** Rows that are told by hand, for the rules that a month by chance may not meet: number, date, clock time of the slot. */
const BY_HAND: Record<string, Partial<Cells>> = {
  // a drain without a volume: the day is incomplete, never a sum over nothing
  'AP 300101 2026-10-08 12:20': { drainedMl: '', note: 'bag burst before it was weighed' },
  // ends after 07:00: the ward day that begins then
  'AP 300118 2026-10-12 07:40': byHand('06:41', '07:06', '2310', '07:10', '07:21', '+01:00', '2026-10-12'),
  // ends before 07:00: still the ward day before
  'AP 300118 2026-10-13 07:40': byHand('06:20', '06:44', '2450', '06:50', '07:02', '+01:00', '2026-10-13'),
  // the hour that comes twice: drained to 01:58 summer time, filled from 01:05 winter time, seven minutes later
  'AP 300126 2026-10-24 22:15': {
    ...byHand('01:40', '01:58', '2560', '01:05', '01:15', '+01:00', '2026-10-25'),
    fillStart: '2026-10-25T01:05+00:00',
    fillEnd: '2026-10-25T01:15+00:00',
    note: 'clocks went back between drain and fill',
  },
  // the ward day of 24-Oct has 25 hours: 06:35 winter time still belongs to it
  'AP 300126 2026-10-25 07:40': byHand('06:10', '06:35', '2840', '06:42', '06:55', '+00:00', '2026-10-25'),
  'AP 300133 2026-10-17 14:30': { appearance: 'cloudy', note: 'sample sent, bag kept in the sluice' },
  'AP 300133 2026-10-17 21:45': { appearance: 'cloudy+fibrin' },
  'AP 300133 2026-10-18 08:05': { appearance: 'cloudy' },
  'AP 300133 2026-10-18 14:30': { appearance: 'clear' },
  // a fill whose volume nobody wrote down
  'AP 300164 2026-10-20 17:10': { filledMl: '', note: 'volume not read, "about a bag"' },
  'AP 300219 2026-10-09 17:10': { appearance: 'pink', note: 'after a fall, looked at, settled' },
};

function byHand(
  drainStart: string,
  drainEnd: string,
  drainedMl: string,
  fillStart: string,
  fillEnd: string,
  offset: string,
  date: string,
): Partial<Cells> {
  const at = (clock: string) => `${date}T${clock}${offset}`;
  return {
    drainStart: at(drainStart),
    drainEnd: at(drainEnd),
    drainedMl,
    fillStart: at(fillStart),
    fillEnd: at(fillEnd),
  };
}

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
