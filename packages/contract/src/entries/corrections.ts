import { z } from 'zod';
import { instant, isPrintable, solutionId, someVolumeMl, text, uuid } from '../primitives.ts';

export const CORRECTION_PAYLOADS = {
  /** The server checks `payload` against the schema of the target's own kind. */
  corrected: z.strictObject({
    target: uuid,
    reason: text(500),
    payload: z.record(z.string().max(60), z.unknown()),
    happenedAt: instant,
  }),
  retracted: z.strictObject({ target: uuid, reason: text(500), enteredAs: uuid.nullable() }),
};

const gtin = z.string().regex(/^\d{14}$/, 'a product code of 14 digits');
const ofProduct = z.union([z.strictObject({ gtin }), z.strictObject({ solutionId })]);
const reason = text(500);

const supplyChange = z.discriminatedUnion('what', [
  z.strictObject({
    what: z.literal('productListed'),
    product: z.strictObject({ gtin, solutionId, labelledMl: someVolumeMl }),
  }),
  z.strictObject({ what: z.literal('productDropped'), gtin, reason }),
  z.strictObject({ what: z.literal('lotRecalled'), lot: text(60), of: ofProduct, reason }),
  z.strictObject({ what: z.literal('recallEnded'), recallId: uuid, reason }),
]);

export const WARD_PAYLOADS = {
  suppliesChanged: z.strictObject({ change: supplyChange }),
  settingsChanged: z.strictObject({
    version: z.int().min(1),
    changes: z.record(
      z.string().regex(/^[\w.]{1,60}$/, 'the name of a setting'),
      z.union([
        z.number(),
        z.string().max(500).refine(isPrintable, { error: 'printable text, at most 500 characters' }),
      ]),
    ),
  }),
};
