import {
  ALERT_KINDS,
  ALERT_RANKS,
  type BedsideState,
  type Due,
  type OpenAlert,
  type StayState,
  type Visit,
} from '@slackwater/domain';
import { z } from 'zod';
import { comfort, flowMove, OBSERVATION_PAYLOADS } from '../entries/observations.ts';
import { fluidHandover, STAY_PAYLOADS } from '../entries/stay.ts';
import { ADDITIVE_CHECK_PAYLOADS, bagInHand, STEP_PAYLOADS } from '../entries/steps.ts';
import { at, atOrNull, balance, cavity, drainOut, dwell, id, idOrNull, ml, reckoning } from './cavity.ts';
import { hold, order, revision } from './prescription.ts';
import { workUp } from './work-up.ts';

export const visitHead = z.strictObject({
  id,
  state: z.enum(['preparing', 'connected', 'draining', 'drained', 'filling', 'closing']),
  since: at,
  startedAt: at,
  startedBy: idOrNull,
  purpose: STEP_PAYLOADS.prepare.shape.purpose,
});

const visit: z.ZodType<Visit> = visitHead
  .extend({
    bag: bagInHand.nullable(),
    revisionId: idOrNull,
    itemId: idOrNull,
    orderId: idOrNull,
    drains: z.array(drainOut),
    fill: STEP_PAYLOADS.startFill.extend({ startedAt: at, entryId: id }).nullable(),
    comfort: comfort.nullable(),
    flowMoves: z.array(flowMove),
    flowEffects: z.array(OBSERVATION_PAYLOADS.flowEffect),
    closedAt: atOrNull,
    stopped: STEP_PAYLOADS.stop.nullable(),
    bagFates: z.array(OBSERVATION_PAYLOADS.bagFate),
    despiteOrderId: idOrNull,
    additiveCheck: ADDITIVE_CHECK_PAYLOADS.additiveCheckAsked
      .extend({
        askedId: id,
        askedAt: at,
        askedBy: idOrNull,
        checked: z
          .strictObject({ by: idOrNull, at, receivedAt: at, agrees: z.boolean(), note: z.string().nullable() })
          .nullable(),
      })
      .nullable(),
  })
  .meta({ id: 'Visit', description: 'One visit to the bed.' });

export const due: z.ZodType<Due> = z
  .strictObject({
    what: z.enum(['drain', 'fill', 'review']),
    dueAt: at,
    soonAt: at,
    overdueAt: at,
    farOverdueAt: at,
    rule: z.enum([
      'length',
      'clock',
      'clockMinimum',
      'clockFar',
      'cycle',
      'order',
      'orderUntil',
      'nextItem',
      'afterDrain',
      'holdReview',
    ]),
    ask: z.boolean(),
  })
  .meta({ id: 'Due' });

export const alertKind = z.enum(ALERT_KINDS);
export const alertRank = z.enum(ALERT_RANKS);

export const openAlert: z.ZodType<OpenAlert> = z
  .strictObject({
    kind: alertKind,
    cause: z.string(),
    rank: alertRank,
    since: at,
    facts: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
    id,
    raisedAt: at,
    settingsVersion: z.int(),
    owner: z.strictObject({ accountId: id, until: at }).nullable(),
    acknowledgedAt: atOrNull,
    snoozedUntil: atOrNull,
    escalatedTo: z.enum(['chargeNurse', 'physician']).nullable(),
  })
  .meta({ id: 'OpenAlert' });

export const offWard = z.strictObject({ since: at, where: z.string(), backAbout: atOrNull }).nullable();
export const assignment = z.strictObject({ accountId: id, name: z.string(), from: at, to: at });

const stay: z.ZodType<StayState> = z.strictObject({
  wardId: id,
  bed: z.string(),
  admittedAt: at,
  dialysis: z.enum(['chronic', 'acute']),
  offWard,
});

const handedOver = fluidHandover.extend({
  at,
  by: idOrNull,
  to: z.union([z.strictObject({ ward: id }), z.strictObject({ place: z.string() })]),
});

/** What somebody last said of a standing caution. */
const said = z.strictObject({ present: z.boolean(), at }).nullable();

const placeInOrder = z.strictObject({ happenedAt: at, position: z.int() }).nullable();

export const bedsideState: z.ZodType<BedsideState> = z
  .strictObject({
    foldVersion: z.int(),
    patientId: id,
    stay: stay.nullable(),
    fluidHandover: handedOver.nullable(),
    head: idOrNull,
    headAt: atOrNull,
    newest: placeInOrder,
    newestAlert: placeInOrder,
    origin: id,
    cavity,
    inside: reckoning,
    visit: visit.nullable(),
    lastVisit: visit.nullable(),
    openDwell: dwell.nullable(),
    lastDwells: z.array(dwell),
    prescription: revision.nullable(),
    revisionInside: revision.nullable(),
    discontinuedAt: atOrNull,
    lastItemId: idOrNull,
    hold: hold.nullable(),
    keptEmptyUntil: atOrNull,
    orders: z.array(order),
    awaitingCountersign: z.array(order),
    due: due.nullable(),
    day: balance,
    shift: balance,
    stayBalance: balance,
    weight: OBSERVATION_PAYLOADS.weight.extend({ at }).nullable(),
    bloodPressure: OBSERVATION_PAYLOADS.bloodPressure.extend({ at }).nullable(),
    temperature: OBSERVATION_PAYLOADS.temperature.extend({ at }).nullable(),
    glucose: OBSERVATION_PAYLOADS.glucose.extend({ at }).nullable(),
    calledFirst: OBSERVATION_PAYLOADS.calledFirst.extend({ at, visitId: idOrNull }).nullable(),
    cautions: z.strictObject({ diabetes: said, maltoseIntolerance: said, glycogenStorageDisease: said }),
    icodextrinAt: atOrNull,
    removals: z.array(z.strictObject({ dwellId: id, at, removedMl: ml })),
    alerts: z.array(openAlert),
    clearedByPerson: z.array(z.strictObject({ kind: alertKind, cause: z.string(), rank: alertRank })),
    assignment: assignment.nullable(),
    catheter: STAY_PAYLOADS.catheter.nullable(),
    catheterInsertedAt: atOrNull,
    comforts: z.array(
      z.strictObject({ entryId: id, at, visitId: idOrNull, when: z.enum(['drain', 'fill', 'between']), comfort }),
    ),
    exitSite: OBSERVATION_PAYLOADS.exitSite.extend({ entryId: id, at }).nullable(),
    told: z.array(OBSERVATION_PAYLOADS.told.extend({ entryId: id })),
    workUps: z.array(workUp),
  })
  .meta({ id: 'BedsideState', description: "All that a bedside needs, folded from the patient's entries." });
