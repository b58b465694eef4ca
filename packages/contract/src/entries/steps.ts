import { LOOKED_AT } from '@slackwater/domain';
import { z } from 'zod';
import { calendarDate, itemId, note, nothing, solutionId, someVolumeMl, text, uuid, volumeMl } from '../primitives.ts';
import { additives } from './prescriptions.ts';

export const override = z.strictObject({ reason: text(500), physician: text(120).nullable() });
const despiteOrder = override.extend({ orderId: uuid }).optional();

/** As a scanner sends it: printable ASCII and the separator GS. */
const scanned = z
  .string()
  .min(1)
  .max(400)
  .refine((text) => /^[ -~]*$/.test(text.replaceAll('\u001d', '')), {
    error: 'a scan: 1 to 400 characters, printable ASCII or U+001D',
  });

export const bagInHand = z.strictObject({
  solutionId,
  labelledMl: someVolumeMl,
  expiresOn: calendarDate.nullable(),
  lot: text(60).nullable(),
  read: z.enum(['scanned', 'typed']),
  label: scanned.exactOptional(),
});

export const infused = z.discriminatedUnion('basis', [
  z.strictObject({ basis: z.literal('wholeBag'), labelledMl: someVolumeMl }),
  z.strictObject({
    basis: z.literal('computed'),
    labelledMl: someVolumeMl,
    bagExcessMl: volumeMl,
    flushMl: volumeMl,
    leftInBagMl: volumeMl,
  }),
  z.strictObject({ basis: z.literal('stated'), volumeMl }),
  z.strictObject({ basis: z.literal('notKnown') }),
]);

/** null: entered afterwards, and nobody watched it. */
const watched = z.boolean().nullable();

/** The steps of a visit; each draft of one carries `after`. */
export const STEP_PAYLOADS = {
  prepare: z.strictObject({
    purpose: z.enum(['exchange', 'drainOnly', 'fillOnly']),
    identifiers: z
      .array(z.enum(['name', 'dateOfBirth', 'hospitalNumber', 'wristband']))
      .max(4)
      .nullable(),
    bag: bagInHand.nullable(),
    revisionId: uuid.nullable(),
    itemId: itemId.nullable(),
    orderId: uuid.nullable(),
    bagChecks: z
      .strictObject({
        noLeak: watched,
        clear: watched,
        warmed: watched,
        sealWhole: watched,
        mixed: watched,
      })
      .nullable(),
    override: override.nullable(),
    despiteOrder,
    afterwards: z.literal(true).optional(),
  }),
  connect: nothing,
  startDrain: z.strictObject({ early: override.optional() }),
  endDrain: z.strictObject({ flow: z.enum(['stopped', 'notStopped']).nullable() }),
  startFill: z.strictObject({
    bag: bagInHand,
    revisionId: uuid.nullable(),
    itemId: itemId.nullable(),
    orderId: uuid.nullable(),
    prescribedMl: someVolumeMl,
    additives,
    flushMl: volumeMl.nullable(),
    sealBroken: watched,
    noLeak: watched,
    guardOverride: override.nullable(),
    bagOverride: override.optional(),
    despiteOrder,
    afterwards: z.strictObject({ secondPerson: text(120).nullable() }).optional(),
  }),
  endFill: z.strictObject({ infused }),
  close: z.strictObject({ leftEmpty: z.boolean() }),
  stop: z.strictObject({
    reason: z.enum(['pain', 'breathless', 'noFlow', 'leak', 'sterilityBroken', 'patientAsked', 'calledAway', 'other']),
    note,
    infused: infused.nullable(),
    contamination: z
      .strictObject({
        kind: z.enum(['wet', 'dry']),
        clamped: z.boolean(),
        setChanged: z.boolean(),
        physicianTold: z.boolean(),
      })
      .nullable(),
  }),
  resume: nothing,
};

/** A second person's check before a fill with something added. */
export const ADDITIVE_CHECK_PAYLOADS = {
  additiveCheckAsked: z.strictObject({
    fillId: uuid,
    bag: bagInHand,
    revisionId: uuid.nullable(),
    itemId: itemId.nullable(),
    orderId: uuid.nullable(),
    prescribedMl: someVolumeMl,
    additives,
  }),
  additiveChecked: z.strictObject({
    askedId: uuid,
    looked: z.array(z.enum(LOOKED_AT)).max(4),
    agrees: z.boolean(),
    note,
  }),
};
