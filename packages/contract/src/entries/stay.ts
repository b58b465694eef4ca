import { z } from 'zod';
import { instant, note, nothing, solutionId, text, uuid, volumeMl, wardId, whole } from '../primitives.ts';
import { additives } from './prescriptions.ts';
import { override } from './steps.ts';

export const bed = text(12);
const modality = z.enum(['chronic', 'acute']);

export const handedOver = z.discriminatedUnion('cavity', [
  z.strictObject({ cavity: z.literal('empty') }),
  z.strictObject({
    cavity: z.literal('holding'),
    solutionId: solutionId.nullable(),
    filledMl: volumeMl.nullable(),
    fillEndedAt: instant.nullable(),
  }),
  z.strictObject({ cavity: z.literal('notKnown') }),
]);

/** An estimate: what is told must never be kept back because it is far beyond a cavity. */
const leftMl = whole(0, 1_000_000);

/** What of the fluid inside was told to whom; null = said to be not known. */
export const fluidHandover = z.strictObject({
  toWhom: text(120),
  said: z.strictObject({
    cavity: z.enum(['holding', 'unknown']),
    since: instant,
    fills: z
      .array(
        z.strictObject({
          solutionId: solutionId.nullable(),
          filledMl: volumeMl.nullable(),
          endedAt: instant.nullable(),
          additives,
        }),
      )
      .max(50, { error: 'at most 50 fills' }),
    leftMl: z.strictObject({ flow: leftMl.nullable(), book: leftMl.nullable() }),
    drainDueAt: instant.nullable(),
  }),
});

export const STAY_PAYLOADS = {
  admitted: z.strictObject({ bed, inside: handedOver, dialysis: modality }),
  transferredOut: z.strictObject({ toWardId: wardId, fluid: fluidHandover.optional() }),
  transferredIn: z.strictObject({ fromWardId: wardId, bed }),
  movedBed: z.strictObject({ bed }),
  leftWard: z.strictObject({ where: text(200), backAbout: instant.nullable(), undrained: override.optional() }),
  returned: nothing,
  discharged: z.strictObject({ to: text(200), handover: note, fluid: fluidHandover.optional() }),
  assigned: z.strictObject({
    accountId: uuid.nullable(),
    name: text(120).nullable(),
    from: instant,
    to: instant,
  }),
  catheter: z.strictObject({
    event: z.enum(['inserted', 'firstUse', 'setChanged', 'removed']),
    note,
    breakInLimitMl: volumeMl.nullable(),
    breakInUntil: instant.nullable(),
    breakInPosture: text(120).nullable(),
  }),
  dialysisPeriod: z.strictObject({ event: z.enum(['started', 'stopped']), modality, note }),
};
