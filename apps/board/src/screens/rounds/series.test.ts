import type { Balance } from '@slackwater/domain';
import { describe, expect, it } from 'vitest';
import { dayPoints, meanRemoved } from './series.ts';

const balance = (change: Partial<Balance>): Balance => ({
  from: 0,
  to: 0,
  removedMl: 0,
  exchanges: 4,
  missing: [],
  missingEarlier: 0,
  otherInMl: null,
  otherOutMl: null,
  ...change,
});

/** A ward day of London, from 07:00 to 07:00. */
const dayOf = (date: string) => ({
  from: Date.parse(`${date}T07:00Z`),
  to: Date.parse(`${date}T07:00Z`) + 86_400_000,
});
const days = [
  { date: '2026-11-22', balance: balance({ removedMl: 600, otherInMl: 1000, otherOutMl: 400 }) },
  { date: '2026-11-23', balance: balance({ removedMl: 300, missing: [{ at: 1, what: 'drain' as const }] }) },
  { date: '2026-11-24', balance: balance({ ...dayOf('2026-11-24'), removedMl: -100, otherOutMl: 0 }) },
  { date: '2026-11-25', balance: balance({ exchanges: 0 }) },
];
const weights = [
  { weightKg: 69.9, cavity: 'full' as const, at: Date.UTC(2026, 10, 24, 7) },
  { weightKg: 70.1, cavity: 'full' as const, at: Date.UTC(2026, 10, 25, 1) },
];
const now = Date.UTC(2026, 10, 26, 12);
const points = dayPoints(days, weights, now);

describe('the days of a chart', () => {
  it('an incomplete day has no bar: missing is never zero', () => {
    expect(points.map((point) => point.removedMl)).toEqual([600, null, -100, null]);
    expect(points[1]?.missing).toBe('1 without a volume');
    expect(points[3]?.missing).toBe('no exchange');
  });
  it('a day on which no other fluid was recorded has none, one with a recorded 0 mL has 0 mL', () => {
    expect(points.map((point) => point.otherMl)).toEqual([600, null, 0, null]);
  });
  it('a day without a weight has none, one with two has the later, also after midnight: the ward day is not over', () => {
    expect(points.map((point) => point.weightKg)).toEqual([null, null, 70.1, null]);
  });
  // By hand: (600 − 100) ÷ 2 = 250 over two complete days.
  it('a mean counts complete days only and says of how many', () => {
    expect(meanRemoved(points, 7)).toEqual({ meanMl: 250, of: 2 });
    expect(meanRemoved([], 7)).toBeNull();
  });
});

describe('the ward day under way', () => {
  it('counts in no mean: the morning of a day is not a day', () => {
    const open = { date: '2026-11-26', balance: balance({ removedMl: 80, to: now + 1 }) };
    const withToday = dayPoints([...days, open], weights, now);
    expect(withToday.at(-1)).toMatchObject({ removedMl: 80, underWay: true });
    // By hand: (600 − 100) / 2; the day of 80 mL so far is left out.
    expect(meanRemoved(withToday, 7)).toEqual({ meanMl: 250, of: 2 });
  });
});
