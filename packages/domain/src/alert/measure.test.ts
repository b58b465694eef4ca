import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from '../time/instant.ts';
import { ALERT_KINDS, ALERT_RANKS } from './alert.ts';
import { type CountedAlert, measureAlerts } from './measure.ts';

const minute = (minutes: number) => minutes * MINUTE_MS;
const FROM = 0;
const TO = minute(60);
const alert = (change: Partial<CountedAlert> = {}): CountedAlert => ({
  patientId: 'p',
  kind: 'drainOverdue',
  cause: 'fill',
  rank: 'medium',
  raisedAt: minute(10),
  acknowledgedAt: null,
  wasSnoozed: false,
  clearedAt: null,
  clearedBy: null,
  ...change,
});
const duty = (accountId: string, from: number, to: number) => ({ accountId, from: minute(from), to: minute(to) });

describe('alerts per nurse and ten minutes', () => {
  const rate = (alerts: number, on: ReturnType<typeof duty>[]) =>
    measureAlerts(
      Array.from({ length: alerts }, () => alert()),
      on,
      FROM,
      TO,
    ).perNurseTenMinutes;

  it('are alerts over the time that nurses had patients: 6 in an hour of one is 1, of two 0.5', () => {
    expect(rate(6, [duty('a', 0, 60)])).toBe(1);
    expect(rate(6, [duty('a', 0, 60), duty('b', 0, 60)])).toBe(0.5);
  });
  it('count a nurse with several patients once, and nothing outside the time', () => {
    expect(rate(6, [duty('a', -300, 30), duty('a', 20, 60), duty('a', 40, 400)])).toBe(1);
    expect(rate(6, [duty('a', -60, 0), duty('a', 30, 60)])).toBe(2);
  });
  it('are no figure where nobody had a patient', () => {
    expect(rate(6, [])).toBeNull();
  });
});

it('shares by rank are of all that were raised, with the counts they rest on', () => {
  const alerts = [alert({ rank: 'high' }), alert(), alert(), alert({ rank: 'low' })];
  expect(measureAlerts(alerts, [], FROM, TO).byRank).toEqual({
    high: { count: 1, of: 4, percent: 25 },
    medium: { count: 2, of: 4, percent: 50 },
    low: { count: 1, of: 4, percent: 25 },
  });
});

it('the time to acknowledge is over those that somebody had', () => {
  const taken = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((after) => alert({ acknowledgedAt: minute(10 + after) }));
  expect(measureAlerts([...taken, alert()], [], FROM, TO).minutesToAcknowledge).toEqual({
    median: 6,
    p90: 10,
    count: 11,
  });
});

describe('never acted on', () => {
  const share = (...alerts: CountedAlert[]) => measureAlerts(alerts, [], FROM, TO).neverActedOn;
  const ended = { clearedAt: minute(20), clearedBy: 'condition' } as const;

  it('is of those that ended: nobody had, snoozed or cleared it', () => {
    expect(
      share(
        alert(ended),
        alert({ ...ended, cause: 'a', acknowledgedAt: minute(12) }),
        alert({ ...ended, cause: 'b', wasSnoozed: true }),
        alert({ ...ended, cause: 'c', clearedBy: 'person' }),
        alert({ cause: 'still open' }),
      ),
    ).toEqual({ count: 1, of: 4, percent: 25 });
  });
  it('leaves out what gave way to a graver one of its kind', () => {
    const graver = alert({ rank: 'high', raisedAt: minute(20), clearedAt: minute(30), clearedBy: 'person' });
    expect(share(alert(ended), graver)).toEqual({ count: 0, of: 1, percent: 0 });
  });
  it('is no figure while none has ended', () => {
    expect(share(alert())).toBeNull();
  });
});

it('the noisiest rules stand first, each with its own share', () => {
  const slow = { kind: 'drainSlow', clearedAt: minute(20), clearedBy: 'condition' } as const;
  expect(measureAlerts([alert(), alert(slow), alert({ ...slow, cause: 'b' })], [], FROM, TO).noisiest).toEqual([
    {
      kind: 'drainSlow',
      raised: { count: 2, of: 3, percent: (100 * 2) / 3 },
      neverActedOn: { count: 2, of: 2, percent: 100 },
    },
    { kind: 'drainOverdue', raised: { count: 1, of: 3, percent: 100 / 3 }, neverActedOn: null },
  ]);
});

it('with nothing raised there are no shares and no times, and never a zero in their place', () => {
  expect(measureAlerts([], [duty('a', 0, 60)], FROM, TO)).toEqual({
    raised: 0,
    nurseMinutes: 60,
    perNurseTenMinutes: 0,
    byRank: { high: null, medium: null, low: null },
    minutesToAcknowledge: null,
    neverActedOn: null,
    noisiest: [],
  });
});

it('shares add up to the whole, whatever was raised', () => {
  const any = fc.record({
    patientId: fc.constantFrom('p', 'q'),
    kind: fc.constantFrom(...ALERT_KINDS),
    cause: fc.constantFrom('a', 'b', 'c'),
    rank: fc.constantFrom(...ALERT_RANKS),
    raisedAt: fc.integer({ min: FROM, max: TO }),
    acknowledgedAt: fc.option(fc.integer({ min: TO, max: 2 * TO })),
    wasSnoozed: fc.boolean(),
    clearedAt: fc.option(fc.integer({ min: TO, max: 2 * TO })),
    clearedBy: fc.constantFrom('condition', 'person'),
  });
  fc.assert(
    fc.property(fc.array(any, { minLength: 1, maxLength: 40 }), (alerts) => {
      const { byRank, noisiest, raised, neverActedOn } = measureAlerts(alerts as CountedAlert[], [], FROM, TO);
      const sum = (shares: readonly ({ count: number } | null)[]) =>
        shares.reduce((all, one) => all + (one?.count ?? 0), 0);
      expect(sum(Object.values(byRank))).toBe(raised);
      expect(sum(noisiest.map((one) => one.raised))).toBe(raised);
      expect(sum(noisiest.map((one) => one.neverActedOn))).toBe(neverActedOn?.count ?? 0);
    }),
  );
});
