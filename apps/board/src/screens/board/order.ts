import type { BoardRow, Group } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { rowAt } from '@slackwater/domain/ward/row-at';
import { type Placed, placed } from './moment.ts';

export const GROUPS: readonly Group[] = ['now', 'withinTheHour', 'later', 'empty'];

/** The board in order: the four groups, each the most urgent first. */
export type Order = Readonly<Record<Group, readonly Placed[]>>;

export const NOTHING: Order = { now: [], withinTheHour: [], later: [], empty: [] };

const sameList = <Item>(a: readonly Item[], b: readonly Item[]): boolean =>
  a.length === b.length && a.every((item, index) => item === b[index]);

const byBed = (a: Placed, b: Placed): number => a.row.bed.localeCompare(b.row.bed, 'en', { numeric: true });

/**
 * Puts the rows in order at an instant. Whatever did not change is the same object as in `before`: a row, a group, and
 * the whole order. Cheap enough for 200 rows a minute.
 */
export const orderAt = (rows: readonly BoardRow[], now: EpochMs, before: Order): Order => {
  const earlier = new Map<string, Placed>();
  for (const group of GROUPS) for (const one of before[group]) earlier.set(one.row.patient.id, one);
  const groups: Record<Group, { one: Placed; urgency: number }[]> = {
    now: [],
    withinTheHour: [],
    later: [],
    empty: [],
  };
  for (const row of rows) {
    const at = rowAt(row, now);
    groups[at.group].push({ one: placed(row, at, now, earlier.get(row.patient.id)), urgency: at.urgency });
  }
  const inOrder = (group: Group): readonly Placed[] => {
    const list = groups[group].sort((a, b) => a.urgency - b.urgency || byBed(a.one, b.one)).map(({ one }) => one);
    return sameList(list, before[group]) ? before[group] : list;
  };
  const order: Order = {
    now: inOrder('now'),
    withinTheHour: inOrder('withinTheHour'),
    later: inOrder('later'),
    empty: inOrder('empty'),
  };
  return GROUPS.every((group) => order[group] === before[group]) ? before : order;
};
