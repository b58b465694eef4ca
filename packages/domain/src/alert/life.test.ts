import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../record/entry.ts';
import { applyTool } from '../testing/apply-tool.ts';
import { anyBedside, anyNow } from '../testing/arbitrary.ts';
import {
  at,
  bedsideOf,
  byLength,
  drainOf,
  dwelling,
  dwellOf,
  LONDON,
  revisionOf,
  visitOf,
} from '../testing/bedside.ts';
import { MINUTE_MS } from '../time/instant.ts';
import type { OpenAlert } from './alert.ts';
import { settle } from './life.ts';
import { nextChangeAt } from './next-change.ts';
import { ownerAt } from './owner.ts';
import { conditionsAt } from './rules.ts';
import { toldOf } from './told.ts';

const FILLED = at('2026-11-25T09:15Z');
// 4 h: due 13:15, overdue 13:39, high from 14:03.
const state = dwelling(revisionOf([byLength('a', 240)]), 'a', FILLED);
const instant = (clock: string) => at(`2026-11-25T${clock}Z`);
const drafts = (of: typeof state, clock: string) => settle(of, instant(clock), LONDON);
const settled = (of: typeof state, clock: string) => applyTool(of, drafts(of, clock), instant(clock));
const alertsOf = (of: typeof state) => of.alerts.map(({ kind, rank }) => `${rank} ${kind}`);
const change = (of: typeof state, alert: Partial<OpenAlert>) => ({
  ...of,
  alerts: of.alerts.map((one) => ({ ...one, ...alert })),
});

describe('an overdue drain', () => {
  it('is no alert before it is overdue', () => {
    expect(drafts(state, '13:38')).toEqual([]);
  });
  it('is raised once, of medium rank, and high anew at twice the margin', () => {
    const overdue = settled(state, '13:39');
    expect(alertsOf(overdue)).toEqual(['medium drainOverdue']);
    expect(drafts(overdue, '13:50')).toEqual([]);
    expect(drafts(overdue, '14:03').map((draft) => draft.kind)).toEqual(['alertCleared', 'alertRaised']);
    expect(alertsOf(settled(overdue, '14:03'))).toEqual(['high drainOverdue']);
  });
  it('is cleared by the drain', () => {
    const overdue = settled(state, '13:39');
    const draining = { ...overdue, visit: visitOf('draining', instant('13:45')), due: null };
    expect(alertsOf(settled(draining, '13:45'))).toEqual([]);
  });
  it('that a person cleared with a reason is not raised again, unless it becomes high', () => {
    const cleared = { ...state, clearedByPerson: [{ kind: 'drainOverdue', cause: 'fill', rank: 'medium' }] as const };
    expect(drafts(cleared, '13:50')).toEqual([]);
    expect(alertsOf(settled(cleared, '14:03'))).toEqual(['high drainOverdue']);
  });
});

describe('a high alert', () => {
  const raised = settled(state, '14:03');
  const escalations = (of: typeof state, clock: string) =>
    drafts(of, clock).map((draft) => (draft.kind === 'alertEscalated' ? draft.payload.to : draft.kind));

  it('that nobody has goes to the charge nurse after 5 min and to the physician after 15', () => {
    expect(escalations(raised, '14:07')).toEqual([]);
    expect(escalations(raised, '14:08')).toEqual(['chargeNurse']);
    const up = settled(raised, '14:08');
    expect(escalations(up, '14:17')).toEqual([]);
    expect(escalations(up, '14:18')).toEqual(['physician']);
    expect(escalations(settled(up, '14:18'), '20:00')).toEqual([]);
  });
  it('goes straight to the physician when the watch was down for so long', () => {
    expect(escalations(raised, '14:30')).toEqual(['physician']);
  });
  it('stays with its owner until the acknowledgement ends, then counts as nobody’s again', () => {
    const held = change(raised, { owner: { accountId: 'perera', until: instant('14:35') } });
    expect(ownerAt(held.alerts[0]!, instant('14:34'))).toBe('perera');
    expect(escalations(held, '14:39')).toEqual([]);
    expect(ownerAt(held.alerts[0]!, instant('14:35'))).toBeNull();
    expect(escalations(held, '14:40')).toEqual(['chargeNurse']);
  });
  it('that the physician had and let run out begins its steps anew: it is never forgotten', () => {
    const taken = settled(settled(raised, '14:08'), '14:18');
    expect(taken.alerts[0]!.escalatedTo).toBe('physician');
    const entry = {
      kind: 'alertAcknowledged',
      payload: { alertId: taken.alerts[0]!.id, until: instant('14:50') },
      happenedAt: instant('14:20'),
      author: 'solberg',
    } as Entry<'alertAcknowledged'>;
    const held = { ...taken, alerts: [toldOf(taken.alerts[0]!, entry)] };
    expect(escalations(held, '14:54')).toEqual([]);
    expect(escalations(held, '14:55')).toEqual(['chargeNurse']);
    expect(escalations(settled(held, '14:55'), '15:05')).toEqual(['physician']);
  });
  it('rests while it is snoozed', () => {
    const snoozed = change(raised, { snoozedUntil: instant('14:35') });
    expect(escalations(snoozed, '14:39')).toEqual([]);
    expect(escalations(snoozed, '14:40')).toEqual(['chargeNurse']);
  });
});

it('a medium alert goes up no step', () => {
  const overdue = settled(state, '13:39');
  expect(drafts(overdue, '14:02')).toEqual([]);
});

describe('a cloudy drain', () => {
  const cloudy = drainOf(instant('09:00'), instant('09:15'), { appearance: ['cloudy'] });
  const seen = settled(bedsideOf({ lastDwells: [dwellOf([cloudy])] }), '09:15');

  it('stays through clear drains until a person clears it', () => {
    expect(alertsOf(seen)).toEqual(['high effluentCloudy']);
    const clear = dwellOf([drainOf(instant('13:00'), instant('13:15'), { entryId: 'next', appearance: ['clear'] })]);
    expect(drafts({ ...seen, lastDwells: [clear] }, '13:15').filter((draft) => draft.kind === 'alertCleared')).toEqual(
      [],
    );
  });
  it('is not raised again once a person cleared it', () => {
    const cleared = { kind: 'effluentCloudy', cause: 'drain', rank: 'high' } as const;
    expect(drafts({ ...seen, alerts: [], clearedByPerson: [cleared] }, '09:16')).toEqual([]);
  });
  it('ends with the stay', () => {
    expect(drafts({ ...seen, stay: null }, '18:00').map((draft) => draft.kind)).toEqual(['alertCleared']);
  });
  it('of imported history raises none', () => {
    expect(drafts(bedsideOf({ lastDwells: [dwellOf([cloudy], { imported: true })] }), '09:15')).toEqual([]);
  });
});

it('looks again when an acknowledgement or a snooze ends, though no condition changes', () => {
  const overdue = settled(state, '13:39');
  const next = (alert: Partial<OpenAlert>) => nextChangeAt(change(overdue, alert), instant('13:40'), LONDON);
  expect(next({})).toBe(instant('14:03'));
  expect(next({ owner: { accountId: 'perera', until: instant('13:55') } })).toBe(instant('13:55'));
  expect(next({ snoozedUntil: instant('13:50') })).toBe(instant('13:50'));
});

/** What the alerts of a bedside are at an instant: whose, and whether they rest. */
const livesAt = (of: typeof state, now: number) =>
  of.alerts.map((alert) => [ownerAt(alert, now), alert.snoozedUntil !== null && now < alert.snoozedUntil]);

describe('properties, for bedsides of every kind', () => {
  it('settling is done once: after its drafts there are none', () => {
    fc.assert(
      fc.property(anyBedside, anyNow, (bedside, now) => {
        const after = applyTool(bedside, settle(bedside, now, LONDON), now);
        expect(settle(after, now, LONDON)).toEqual([]);
        const open = after.alerts.map(({ kind, cause }) => `${kind} ${cause}`);
        expect(new Set(open).size).toBe(open.length);
      }),
      { numRuns: 500 },
    );
  });

  it('nothing changes between now and nextChangeAt, and the tool writes nothing in between', () => {
    fc.assert(
      fc.property(anyBedside, anyNow, fc.double({ min: 0, max: 1, noNaN: true }), (bedside, now, share) => {
        const after = applyTool(bedside, settle(bedside, now, LONDON), now);
        const next = nextChangeAt(after, now, LONDON);
        expect(next === null || next > now).toBe(true);
        const until = next ?? now + 400 * 24 * 60 * MINUTE_MS;
        const between = Math.min(until - 1, now + Math.floor((until - now) * share));
        expect(conditionsAt(after, between, LONDON)).toEqual(conditionsAt(after, now, LONDON));
        expect(livesAt(after, between)).toEqual(livesAt(after, now));
        expect(settle(after, between, LONDON)).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  it('at nextChangeAt something does: a condition, an owner, a snooze or a step', () => {
    fc.assert(
      fc.property(anyBedside, anyNow, (bedside, now) => {
        const after = applyTool(bedside, settle(bedside, now, LONDON), now);
        const next = nextChangeAt(after, now, LONDON);
        fc.pre(next !== null);
        const life = (instant: number) => ({
          conditions: conditionsAt(after, instant, LONDON),
          lives: livesAt(after, instant),
          drafts: settle(after, instant, LONDON),
        });
        expect(life(next)).not.toEqual(life(next - 1));
      }),
      { numRuns: 500 },
    );
  });
});
