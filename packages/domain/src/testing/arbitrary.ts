import fc from 'fast-check';
import type { AlertKind, OpenAlert } from '../alert/alert.ts';
import type { BedsideState, Visit } from '../bedside/state.ts';
import type { Cavity } from '../cavity/cavity.ts';
import type { Appearance, SuddenOutflow } from '../effluent/effluent.ts';
import type { SaidComfort, WorkUp } from '../peritonitis/work-up.ts';
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

const said: fc.Arbitrary<SaidComfort> = fc
  .record({
    at: instant,
    visitId: fc.constantFrom(null, 'visit'),
    when: fc.constantFrom('drain', 'fill', 'between'),
    pain: fc.option(fc.integer({ min: 0, max: 10 })),
    phase: fc.constantFrom(null, 'startOfFill', 'endOfDrain', 'shoulder', 'newOrConstant'),
    yes: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    sudden: fc.subarray<SuddenOutflow>(['urine', 'wateryStool']),
  })
  .map(({ at: saidAt, visitId, when, pain, phase, yes, sudden }) => ({
    entryId: `said-${saidAt}-${when}`,
    at: saidAt,
    visitId,
    when,
    comfort: {
      pain,
      phase,
      cramp: yes[0]!,
      breathless: yes[1]!,
      leakAtExit: yes[2]!,
      swelling: yes[3]!,
      sudden,
    },
  }));

const sign = fc.constantFrom<(0 | 1 | 2)[]>(0, 1, 2);
const exitSite = fc.record({
  entryId: fc.constant('exit-site'),
  at: instant,
  pus: fc.boolean(),
  swelling: sign,
  crust: sign,
  redness: sign,
  pain: sign,
  drainage: sign,
  note: fc.constant(null),
});

const sample = (workUpId: string) =>
  instant.map((takenAt) => ({
    id: `sample-${takenAt}`,
    at: takenAt,
    workUpId,
    tests: ['cellCount', 'culture'] as const,
    drainId: null,
    dwellMinutes: null,
    bottles: 2,
    beforeAntibiotic: true,
    bagKeptWhere: null,
    note: null,
  }));

const workUp: fc.Arbitrary<WorkUp> = fc.constantFrom('work-up-one', 'work-up-two').chain((id) =>
  fc.record({
    id: fc.constant(id),
    openedAt: instant,
    drainId: fc.constantFrom('drain-one', 'drain-two', 'gone'),
    drainStartedAt: instant,
    appearance: fc.constant(['cloudy'] as const),
    dwellMinutes: fc.option(fc.integer({ min: 0, max: 600 })),
    samples: fc.array(sample(id), { maxLength: 2 }),
    results: fc.constant([]),
    antibiotics: fc.constant([]),
    closed: fc.option(
      fc.record({
        at: instant,
        conclusion: fc.constantFrom('peritonitis', 'notPeritonitis', 'other'),
        reason: fc.constant('as the physician said'),
      }),
    ),
  }),
);

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
      correctionFrom: null,
      sinceEmpty: null,
    })),
    catheterInsertedAt: fc.option(instant),
    comforts: fc.array(said, { maxLength: 3 }),
    exitSite: fc.option(exitSite),
    workUps: fc.uniqueArray(workUp, { maxLength: 2, selector: ({ id }) => id }),
    alerts: fc.uniqueArray(alert, { maxLength: 3, selector: ({ kind, cause }) => `${kind} ${cause}` }),
  })
  .map((change) => bedsideOf(change));

/** An instant from two hours before to a day after. */
export const anyNow: fc.Arbitrary<number> = fc.integer({ min: NOON - 2 * HOUR_MS, max: NOON + 24 * HOUR_MS });
