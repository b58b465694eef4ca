import { ADDITIVE_KINDS, ADDITIVE_UNITS } from '@slackwater/domain';
import { z } from 'zod';
import {
  clockTime,
  instant,
  itemId,
  minutes,
  note,
  nothing,
  real,
  solutionId,
  someVolumeMl,
  text,
  uuid,
  whole,
} from '../primitives.ts';

const dwellRule = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('length'), dwellMinutes: minutes }),
  z.strictObject({ by: z.literal('clock'), at: clockTime }),
  z.strictObject({ by: z.literal('cycle'), fillMinutes: minutes, dwellMinutes: minutes, drainMinutes: minutes }),
]);

/** What goes into one bag. An amount as ordered; the domain judges the rest. */
export const additives = z
  .array(
    z.strictObject({
      what: text(80),
      amount: real(0, 1_000_000),
      unit: z.enum(ADDITIVE_UNITS),
      kind: z.enum(ADDITIVE_KINDS),
      minimumDwellMinutes: minutes.nullable(),
    }),
  )
  .max(12, { error: 'at most 12 additives' });

export const prescriptionItem = z.strictObject({
  id: itemId,
  solutionId,
  fillMl: whole(1, 5_000),
  additives,
  dwell: dwellRule,
  windowMinutes: whole(0, 240),
  condition: text(200).nullable(),
});

const mmHg = whole(20, 280).nullable();

export const patientLimits = z.strictObject({
  mostInsideMl: someVolumeMl.nullable(),
  weightTargetKg: real(1, 350).nullable(),
  weightTargetCavity: z.enum(['full', 'empty']).nullable(),
  systolicLowMmHg: mmHg,
  systolicHighMmHg: mmHg,
  overRemovalMl: someVolumeMl.nullable(),
  overRemovalHours: real(0.5, 168).nullable(),
});

export const orderContent = z.discriminatedUnion('what', [
  z.strictObject({
    what: z.literal('drainAndStayEmpty'),
    drainBy: instant,
    emptyUntil: instant,
    away: z.strictObject({ where: text(80), why: text(200), leavesAt: instant, backAt: instant }).optional(),
  }),
  z.strictObject({
    what: z.literal('rinse'),
    solutionId,
    volumeMl: someVolumeMl,
    rinses: whole(1, 20),
  }),
  z.strictObject({ what: z.literal('sample'), dwellMinutes: minutes, sample: text(200) }),
  z.strictObject({ what: z.literal('partialDrain'), volumeMl: someVolumeMl }),
  z.strictObject({
    what: z.literal('oneExchange'),
    solutionId,
    fillMl: whole(1, 5_000),
    dwellMinutes: minutes.nullable(),
    additives,
  }),
  z.strictObject({ what: z.literal('drainNow') }),
  z.strictObject({ what: z.literal('dueAt'), dueAt: instant }),
]);

export const telephone = z.strictObject({ physician: text(120), readBack: z.literal(true) });

export const PRESCRIPTION_PAYLOADS = {
  prescribed: z.strictObject({
    items: z.array(prescriptionItem).min(1).max(30),
    limits: patientLimits,
    acute: z.boolean(),
    note,
    reviewBy: instant.nullable(),
  }),
  held: z.strictObject({ reason: text(500), reviewBy: instant }),
  holdLifted: nothing,
  discontinued: z.strictObject({ reason: text(500) }),
  ordered: z.strictObject({ content: orderContent, note, telephone: telephone.nullable() }),
  countersigned: z.strictObject({ orderId: uuid }),
  orderEnded: z.strictObject({ orderId: uuid, why: z.enum(['done', 'withdrawn']), reason: text(500).nullable() }),
};
