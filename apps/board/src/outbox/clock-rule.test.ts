import type { Draft } from '@slackwater/domain';
import { describe, expect, it } from 'vitest';
import { clockVerdict, shifted } from './clock-rule.ts';
import type { Touch } from './touch.ts';

const MINUTE = 60_000;
const NOON = Date.UTC(2026, 10, 25, 12);
const draft = (id: string, happenedAt: number) => ({ id, happenedAt }) as unknown as Draft;

/** Written at noon of the ward, on a device whose time of day is right. */
const written = (change: Partial<Touch> = {}): Touch => ({
  wardId: 'kestrel',
  patientId: 'p',
  drafts: [draft('stamped', NOON), draft('typed', NOON - 40 * MINUTE)],
  writtenAt: NOON,
  clock: { deviceAt: NOON, monotonicAt: 5000, life: 1 },
  typed: ['typed'],
  timesSaid: false,
  ...change,
});

/** Twenty minutes later by the ward; the device says what it says. */
const later = (deviceAt: number, monotonicAt: number, life = 1) => ({
  wardAt: NOON + 20 * MINUTE,
  clock: { deviceAt, monotonicAt, life },
});

describe('the device’s clock between the touch and the sending', () => {
  it('is steady while both of its clocks went with the ward’s', () => {
    expect(clockVerdict(written(), later(NOON + 20 * MINUTE, 5000 + 20 * MINUTE))).toEqual({ is: 'steady' });
  });

  it('may be set by ten minutes or a day: the clock that only runs forward bears witness', () => {
    for (const step of [10 * MINUTE, -10 * MINUTE, 24 * 60 * MINUTE])
      expect(clockVerdict(written(), later(NOON + 20 * MINUTE + step, 5000 + 20 * MINUTE))).toEqual({ is: 'steady' });
  });

  it('may sleep, or be restarted, while its time of day goes on', () => {
    expect(clockVerdict(written(), later(NOON + 20 * MINUTE, 6000))).toEqual({ is: 'steady' });
    expect(clockVerdict(written(), later(NOON + 20 * MINUTE, 300, 2))).toEqual({ is: 'steady' });
  });

  it('is asked about when it was restarted and its time of day is another', () => {
    // By hand: 12:20 by the ward, 12:10 by the device; before, both said 12:00.
    expect(clockVerdict(written(), later(NOON + 10 * MINUTE, 300, 2))).toEqual({ is: 'stepped', byMs: 10 * MINUTE });
  });

  it('was wrong all the time by as much: nothing stepped', () => {
    const slow = written({ clock: { deviceAt: NOON - 30 * MINUTE, monotonicAt: 5000, life: 1 } });
    expect(clockVerdict(slow, later(NOON - 10 * MINUTE, 300, 2))).toEqual({ is: 'steady' });
  });

  it('is not asked about twice, nor where an earlier format noted no clock', () => {
    const stepped = later(NOON + 10 * MINUTE, 300, 2);
    expect(clockVerdict(written({ timesSaid: true }), stepped)).toEqual({ is: 'steady' });
    expect(clockVerdict(written({ clock: null }), stepped)).toEqual({ is: 'steady' });
  });
});

it('a shift moves what was stamped, and never what a person typed', () => {
  const moved = shifted(written(), 10 * MINUTE);
  expect(moved.drafts.map(({ happenedAt }) => happenedAt)).toEqual([NOON + 10 * MINUTE, NOON - 40 * MINUTE]);
  expect(moved.timesSaid).toBe(true);
  expect(moved.writtenAt).toBe(NOON);
});
