/** What a row of the flow sheet says beside ward and number. */
export type Cells = {
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
export const BY_HAND: Record<string, Partial<Cells>> = {
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
