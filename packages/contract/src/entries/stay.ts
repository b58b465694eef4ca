import { z } from 'zod';
import { instant, note, nothing, solutionId, text, uuid, volumeMl, wardId } from '../primitives.ts';

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

export const STAY_PAYLOADS = {
  admitted: z.strictObject({ bed, inside: handedOver, dialysis: modality }),
  transferredOut: z.strictObject({ toWardId: wardId }),
  transferredIn: z.strictObject({ fromWardId: wardId, bed }),
  movedBed: z.strictObject({ bed }),
  leftWard: z.strictObject({ where: text(200), backAbout: instant.nullable() }),
  returned: nothing,
  discharged: z.strictObject({ to: text(200), handover: note }),
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
