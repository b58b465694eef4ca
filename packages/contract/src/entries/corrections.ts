import { z } from 'zod';
import { instant, isPrintable, text, uuid } from '../primitives.ts';

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

export const WARD_PAYLOADS = {
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
