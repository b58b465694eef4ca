import type { BoardRow, Due } from '@slackwater/domain';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GROUPS, orderAt } from './order.ts';

const noon = Date.UTC(2026, 10, 25, 12);

const dueAt = (at: number): Due => ({
  what: 'drain',
  dueAt: at,
  soonAt: at - 30 * MINUTE_MS,
  overdueAt: at + 15 * MINUTE_MS,
  farOverdueAt: at + 30 * MINUTE_MS,
  rule: 'length',
  ask: false,
});

const row = (bed: string, dueInMinutes: number): BoardRow =>
  ({
    bed,
    cavity: { state: 'holding', since: 0, fills: [] },
    visit: null,
    standingAt: null,
    hold: null,
    alerts: [],
    due: dueAt(noon + dueInMinutes * MINUTE_MS),
    day: { to: noon + 7 * HOUR_MS },
    nurse: null,
  }) as unknown as BoardRow;

const beds = (order: ReturnType<typeof orderAt<BoardRow>>) =>
  GROUPS.map((group) => order[group].map((one) => one.row.bed).join(' '));

describe('the order of the board', () => {
  const rows = [row('9', 400), row('2', -40), row('7', 20), row('1', -5), row('10', 20)];

  it('puts who needs somebody now first, then the hour, then the rest; beds decide between equals', () => {
    expect(beds(orderAt(rows, noon, null))).toEqual(['2 1', '7 10', '9', '']);
  });

  it('is the same object while nothing changed but the minutes', () => {
    const first = orderAt(rows, noon, null);
    expect(orderAt(rows, noon + MINUTE_MS, first)).toBe(first);
  });

  it('moves a row when its time comes, and leaves the others untouched', () => {
    const first = orderAt(rows, noon, null);
    const later = orderAt(rows, noon + 21 * MINUTE_MS, first);
    expect(beds(later)).toEqual(['2 1 7 10', '', '9', '']);
    expect(later.later).toBe(first.later);
    expect(later.now[0]).toBe(first.now[0]);
  });

  it('begins a new day when the ward day of its balance is over', () => {
    const first = orderAt(rows, noon, null);
    const evening = orderAt(rows, noon + 8 * HOUR_MS, first);
    expect(GROUPS.flatMap((group) => evening[group]).every((one) => one.moment.dayOver)).toBe(true);
    expect(GROUPS.flatMap((group) => first[group]).some((one) => one.moment.dayOver)).toBe(false);
  });

  it('keeps every row exactly once at every minute', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -600, max: 900 }), { maxLength: 40 }), fc.nat(600), (dues, minutes) => {
        const many = dues.map((minute, index) => row(String(index + 1), minute));
        const order = orderAt(many, noon + minutes * MINUTE_MS, orderAt(many, noon, null));
        const all = GROUPS.flatMap((group) => order[group].map((one) => one.row.bed));
        return all.length === many.length && new Set(all).size === many.length;
      }),
    );
  });
});
