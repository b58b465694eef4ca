import fc from 'fast-check';
import type { AlertKind, OpenAlert } from '../alert/alert.ts';
import type { BedsideState, Visit } from '../bedside/state.ts';
import type { Cavity } from '../cavity/cavity.ts';
import type { Appearance } from '../effluent/effluent.ts';
import { HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import {
  at,
  bedsideOf,
  byClock,
  byLength,
  drainOf,
  dwellOf,
  fillOf,
  item,
  orderOf,
  revisionOf,
  visitOf,
} from './bedside.ts';

/** Around this instant all that happens in generated bedsides lies. */
export const NOON = at('2026-11-25T12:00Z');

const instant = fc.integer({ min: -10 * 60, max: 2 * 60 }).map((minutes) => NOON + minutes * MINUTE_MS);
const later = fc.integer({ min: 0, max: 10 * 60 }).map((minutes) => NOON + minutes * MINUTE_MS);

const revision = fc.constantFrom(
  revisionOf([byLength('a', 240), byLength('b', 540)]),
  revisionOf([byClock('a', '06:00'), byClock('b', '12:00'), byClock('c', '18:00')]),
  revisionOf([item('a', { by: 'cycle', fillMinutes: 10, dwellMinutes: 40, drainMinutes: 10 })]),
);

const volume = fc.option(fc.integer({ min: 0, max: 3000 }));

const cavity: fc.Arbitrary<Cavity> = fc.oneof(
  instant.map((since) => ({ state: 'unknown' as const, since })),
  instant.map((since) => ({ state: 'empty' as const, since })),
  fc.tuple(instant, volume).map(([since, filledMl]) => ({
    state: 'holding' as const,
    since,
    fills: [fillOf(since, { itemId: 'a', filledMl })],
  })),
);

const appearance = fc.subarray<Appearance>(['clear', 'cloudy', 'fibrin', 'pink', 'bloody', 'milky', 'brown', 'green']);

const dwell = fc
  .record({ id: fc.constantFrom('one', 'two'), startedAt: instant, filledMl: volume, drainedMl: volume, appearance })
  .map(({ id, startedAt, filledMl, drainedMl, appearance: seen }) => {
    const drain = drainOf(startedAt, startedAt + 15 * MINUTE_MS, {
      entryId: `drain-${id}`,
      drainedMl,
      appearance: seen,
    });
    return dwellOf([drain], { id, filledMl, drainedMl });
  });

const visit: fc.Arbitrary<Visit | null> = fc.option(
  fc
    .tuple(
      fc.constantFrom<Visit['state'][]>('preparing', 'connected', 'draining', 'drained', 'filling', 'closing'),
      instant,
    )
    .map(([state, since]) => visitOf(state, since)),
);

const order = fc.oneof(
  instant.map((givenAt) => orderOf({ what: 'drainNow' }, givenAt)),
  fc.tuple(instant, later).map(([givenAt, dueAt]) => orderOf({ what: 'dueAt', dueAt }, givenAt)),
  fc.tuple(instant, later).map(([givenAt, countersignBy]) =>
    orderOf({ what: 'sample', dwellMinutes: 120, sample: 'cell count' }, givenAt, {
      telephone: { physician: 'Dr Imre Solberg', readBack: true },
      countersignBy,
    }),
  ),
);

const KINDS: readonly AlertKind[] = ['drainOverdue', 'effluentCloudy', 'drainShort', 'visitLeftStanding', 'drainSlow'];

const alert: fc.Arbitrary<OpenAlert> = fc.record({
  id: fc.uuid(),
  kind: fc.constantFrom(...KINDS),
  cause: fc.constantFrom('fill', 'drain-one', 'one', 'visit'),
  rank: fc.constantFrom('high', 'medium', 'low'),
  since: instant,
  facts: fc.constant({}),
  raisedAt: instant,
  settingsVersion: fc.constant(1),
  owner: fc.option(later.map((until) => ({ accountId: 'nurse', until }))),
  acknowledgedAt: fc.option(instant),
  snoozedUntil: fc.option(later),
  escalatedTo: fc.constantFrom(null, 'chargeNurse', 'physician'),
});

/** Bedsides of every kind, legal or odd: the rules must hold for all of them. */
export const anyBedside: fc.Arbitrary<BedsideState> = fc
  .record({
    cavity,
    visit,
    prescription: fc.option(revision),
    revisionInside: fc.option(revision),
    lastItemId: fc.constantFrom(null, 'a', 'b'),
    hold: fc.option(fc.record({ since: instant, reason: fc.constant('leak'), reviewBy: later })),
    orders: fc
      .array(order, { maxLength: 2 })
      .map((orders) => orders.map((one, place) => ({ ...one, id: `order-${place}` }))),
    lastDwells: fc.uniqueArray(dwell, { maxLength: 2, selector: ({ id }) => id }),
    inside: fc.option(fc.integer({ min: 0, max: 4000 })).map((bookMl) => ({
      bookMl,
      flowMl: bookMl,
      flowVarianceMl2: bookMl === null ? null : 100 ** 2,
      ufCorrectionMl: 0,
      sinceEmpty: null,
    })),
    alerts: fc.uniqueArray(alert, { maxLength: 3, selector: ({ kind, cause }) => `${kind} ${cause}` }),
  })
  .map((change) => bedsideOf(change));

/** An instant from two hours before to a day after. */
export const anyNow: fc.Arbitrary<number> = fc.integer({ min: NOON - 2 * HOUR_MS, max: NOON + 24 * HOUR_MS });
