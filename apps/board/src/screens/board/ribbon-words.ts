import type { BoardRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import type { Moment } from './moment.ts';
import { STATE_WORDS } from './words.ts';

type Clock = (at: EpochMs) => string;

/** The ribbon in one sentence, for who does not see it. */
export const ribbonLabel = (row: Pick<BoardRow, 'cavity' | 'visit' | 'due'>, moment: Moment, clock: Clock): string => {
  const inside =
    row.cavity.state === 'empty' ? 'Empty' : row.cavity.state === 'holding' ? 'Dwelling' : 'Not known what is inside';
  const visit = row.visit ? `, ${STATE_WORDS[moment.word]} since ${clock(row.visit.since)}` : '';
  const due = row.due ? `, ${row.due.what} due ${clock(row.due.dueAt)}` : '';
  return `${inside}${visit}${due}`;
};

/** A number and its unit stand on one line. */
const unparted = (words: string): string => words.replace(/ (?=mL|%)/g, '\u00a0');

const nextBag = ({ next }: BoardRow, ml: (ml: number) => string): string | null =>
  next ? unparted(`${ml(next.fillMl)} ${next.strength}`) : null;

/** What stands to the right of now, where the ribbon alone does not say what comes. */
export const noteOf = (row: BoardRow, moment: Moment, clock: Clock, ml: (ml: number) => string): string | null => {
  const bag = nextBag(row, ml);
  switch (row.visit?.state) {
    case 'drained':
      return bag && !row.hold ? `then ${bag}` : 'drained, no fill to follow';
    case 'filling':
      return bag ? `${bag} running in` : null;
    case 'preparing':
    case 'connected':
    case 'draining':
    case 'closing':
      return null;
  }
  if (row.cavity.state === 'unknown') return 'fill unknown';
  if (moment.word === 'overdue' && row.due) return `${row.due.what} was due ${clock(row.due.dueAt)}`;
  if (row.cavity.state === 'empty') {
    const since = `empty since ${clock(row.cavity.since)}`;
    if (row.hold) return `on hold: ${row.hold.reason}, review ${clock(row.hold.reviewBy)}`;
    return row.due?.what === 'fill' ? `${since}, fill at ${clock(row.due.dueAt)}` : since;
  }
  return null;
};

/** What stands to the right of the post: fluid is inside, but the patient is away or no fill follows. */
export const postNoteOf = (
  row: BoardRow,
  clock: Clock,
): { word: string; rest: string; away: 'off' | 'hold' } | null => {
  if (row.cavity.state === 'empty') return null;
  if (row.offWard) {
    const { where, backAbout } = row.offWard;
    // The time first: where there is little room, the place is what is cut.
    const rest = backAbout === null ? where : `back about ${clock(backAbout)}, ${where}`;
    return { word: 'off the ward', rest, away: 'off' };
  }
  return row.hold ? { word: 'on hold', rest: 'drain only, then empty', away: 'hold' } : null;
};
