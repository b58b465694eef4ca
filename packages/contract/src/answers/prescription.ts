import type { Hold, Order, PrescriptionRevision } from '@slackwater/domain';
import { z } from 'zod';
import { orderContent, patientLimits, prescriptionItem, telephone } from '../entries/prescriptions.ts';
import { at, atOrNull, id, idOrNull } from './cavity.ts';

export const revision: z.ZodType<PrescriptionRevision> = z
  .strictObject({
    id,
    number: z.int(),
    items: z.array(prescriptionItem),
    limits: patientLimits,
    acute: z.boolean(),
    note: z.string().nullable(),
    reviewBy: atOrNull,
    prescribedAt: at,
    prescribedBy: idOrNull,
  })
  .meta({ id: 'PrescriptionRevision' });

export const order: z.ZodType<Order> = z
  .strictObject({
    id,
    content: orderContent,
    note: z.string().nullable(),
    givenAt: at,
    givenBy: idOrNull,
    telephone: telephone.nullable(),
    countersignBy: atOrNull,
    countersignedBy: idOrNull,
    endedAt: atOrNull,
  })
  .meta({ id: 'Order' });

export const hold: z.ZodType<Hold> = z.strictObject({ since: at, reason: z.string(), reviewBy: at });
