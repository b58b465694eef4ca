import type { Due } from '../bedside/state.ts';
import { type EpochMs, HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import type { BoardRow, Group, RowAt } from './board-row.ts';

/** What of a row decides where it stands; the wall's rows have it too. */
export type TimedRow = Pick<BoardRow, 'cavity' | 'visit' | 'standingAt' | 'due' | 'hold' | 'alerts'>;

/** The order of the board, most urgent first; within a class the earlier instant comes first. */
const URGENCY = {
  highNobodyHas: 0,
  highHeld: 1,
  overdue: 2,
  visitStanding: 3,
  due: 4,
  visitUnderWay: 5,
  noTime: 6,
  withinTheHour: 7,
  later: 8,
  empty: 9,
} as const;

type Class = keyof typeof URGENCY;

/** Wider than any instant, so that the class decides first. */
const CLASS_WIDTH = 1e14;

/**
 * What a row is at an instant: its group, its place, and what its large numerals say. Comparisons and sums of epoch
 * milliseconds only, since every row asks at every tick. While nothing happens a row only ever becomes more urgent.
 */
export function rowAt(row: TimedRow, nowMs: EpochMs): RowAt {
  const time = timeAt(row, nowMs);
  const alert = highAlertAt(row, nowMs);
  const of = alert === null ? time.of : alert.of;
  const from = alert === null ? time.from : alert.since;
  return {
    group: groupOf(of),
    urgency: URGENCY[of] * CLASS_WIDTH + from,
    minutes: time.minutes,
    word: time.word,
    at: time.at,
  };
}

const groupOf = (of: Class): Group => (of === 'withinTheHour' || of === 'later' || of === 'empty' ? of : 'now');

/** The gravest high alert: one that nobody has before one that somebody has, the older first. */
function highAlertAt({ alerts }: TimedRow, now: EpochMs): { of: Class; since: EpochMs } | null {
  let held: EpochMs | null = null;
  let nobodys: EpochMs | null = null;
  for (const { rank, owner, snoozedUntil, raisedAt } of alerts) {
    if (rank !== 'high') continue;
    const isHeld = (owner !== null && now < owner.until) || (snoozedUntil !== null && now < snoozedUntil);
    if (isHeld) held = held === null ? raisedAt : Math.min(held, raisedAt);
    else nobodys = nobodys === null ? raisedAt : Math.min(nobodys, raisedAt);
  }
  if (nobodys !== null) return { of: 'highNobodyHas', since: nobodys };
  return held === null ? null : { of: 'highHeld', since: held };
}

type Timed = Pick<RowAt, 'minutes' | 'word' | 'at'> & { of: Class; from: EpochMs };

/** Minutes gone by, as a clock beside it would show them. */
const minutesSince = (at: EpochMs, now: EpochMs): number => Math.max(0, Math.floor((now - at) / MINUTE_MS));
const minutesUntil = (at: EpochMs, now: EpochMs): number => Math.max(0, Math.ceil((at - now) / MINUTE_MS));

function timeAt(row: TimedRow, now: EpochMs): Timed {
  const { visit, due } = row;
  // A hold's review is a physician's act of the day: late, it is due, and stands behind every drain.
  const isOverdue = due !== null && due.what !== 'review' && now >= due.overdueAt;
  if (isOverdue) {
    return { of: 'overdue', from: due.dueAt, minutes: minutesSince(due.dueAt, now), word: 'overdue', at: due.dueAt };
  }
  if (visit !== null) return visitAt(visit, row.standingAt, due, now);
  if (due === null) return withoutDue(row);
  return now >= due.dueAt ? pastDue(due, now) : ahead(row, due, now);
}

function visitAt(
  { state, since }: NonNullable<TimedRow['visit']>,
  standingAt: EpochMs | null,
  due: Due | null,
  now: EpochMs,
): Timed {
  const shown = { minutes: minutesSince(since, now), word: state, at: since };
  if (standingAt !== null && now >= standingAt) return { of: 'visitStanding', from: standingAt, ...shown };
  if (due !== null && now >= due.dueAt) return { of: 'due', from: due.dueAt, ...shown };
  return { of: 'visitUnderWay', from: since, ...shown };
}

/** Nobody said when: an empty cavity waits, fluid (or what may be fluid) without a time needs somebody. */
function withoutDue({ cavity, hold }: TimedRow): Timed {
  if (cavity.state === 'empty') {
    return { of: 'empty', from: cavity.since, minutes: null, word: hold === null ? 'empty' : 'onHold', at: null };
  }
  return { of: 'noTime', from: cavity.since, minutes: null, word: 'unknown', at: cavity.since };
}

function pastDue(due: Due, now: EpochMs): Timed {
  const minutes = minutesSince(due.dueAt, now);
  return { of: 'due', from: due.dueAt, minutes, word: minutes === 0 ? 'due' : 'pastDue', at: due.dueAt };
}

const WORD_AHEAD = { drain: 'drainAt', fill: 'fillAt', review: 'reviewAt' } as const;

function ahead({ cavity, hold }: TimedRow, due: Due, now: EpochMs): Timed {
  const isNear = due.dueAt - now <= HOUR_MS;
  if (!isNear && cavity.state === 'empty') {
    const word = hold === null ? 'empty' : 'onHold';
    return { of: 'empty', from: due.dueAt, minutes: null, word, at: due.dueAt };
  }
  return {
    of: isNear ? 'withinTheHour' : 'later',
    from: due.dueAt,
    minutes: minutesUntil(due.dueAt, now),
    word: WORD_AHEAD[due.what],
    at: due.dueAt,
  };
}
