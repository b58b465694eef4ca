import type { Balance, Cavity, Dwell, Reckoning } from '@slackwater/domain';
import { z } from 'zod';
import { appearances } from '../entries/observations.ts';
import { additives } from '../entries/prescriptions.ts';

// Answers are described for their readers and checked by tests; no answer is run through these on its way out.

export const ml = z.number().nullable();
export const at = z.int();
export const atOrNull = at.nullable();
export const id = z.string();
export const idOrNull = id.nullable();

const fillInside = z.strictObject({
  entryId: id,
  visitId: idOrNull,
  solutionId: idOrNull,
  filledMl: ml,
  startedAt: atOrNull,
  endedAt: atOrNull,
  revisionId: idOrNull,
  itemId: idOrNull,
  orderId: idOrNull,
  additives,
});

export const cavity: z.ZodType<Cavity> = z
  .discriminatedUnion('state', [
    z.strictObject({ state: z.literal('unknown'), since: at }),
    z.strictObject({ state: z.literal('empty'), since: at }),
    z.strictObject({ state: z.literal('holding'), since: at, fills: z.array(fillInside) }),
  ])
  .meta({ id: 'Cavity' });

export const reckoning: z.ZodType<Reckoning> = z
  .strictObject({
    bookMl: ml,
    flowMl: ml,
    flowVarianceMl2: ml,
    ufCorrectionMl: z.number(),
    correctionFrom: z.strictObject({ dwells: z.int(), surplusMl: z.number(), since: at, until: at }).nullable(),
    sinceEmpty: z
      .strictObject({
        at,
        by: z.enum(['secondDrainUnder100Ml', 'imaging', 'physician', 'admission']),
        dwells: z.int(),
        surplusMl: z.number(),
      })
      .nullable(),
  })
  .meta({ id: 'Reckoning', description: 'What is probably inside, in two figures, as the last drain left it, mL.' });

export const drainOut = z.strictObject({
  entryId: id,
  visitId: id,
  startedAt: at,
  endedAt: atOrNull,
  drainedMl: ml,
  readingMl: ml,
  exactMl: ml,
  flow: z.enum(['stopped', 'notStopped']).nullable(),
  appearance: appearances,
});

export const dwell: z.ZodType<Dwell> = z
  .strictObject({
    id,
    fills: z.array(fillInside),
    drains: z.array(drainOut),
    drainedAt: atOrNull,
    filledMl: ml,
    drainedMl: ml,
    drainMinusFillMl: ml,
    complete: z.boolean(),
    expectedUfMl: ml,
    expectedUfSdMl: ml,
    before: reckoning,
    emptyConfirmed: z.strictObject({ at, by: z.enum(['secondDrainUnder100Ml', 'imaging', 'physician']) }).nullable(),
    imported: z.boolean(),
  })
  .meta({ id: 'Dwell', description: 'All fills up to the next drain, all drains up to the next fill.' });

export const balance: z.ZodType<Balance> = z
  .strictObject({
    from: at,
    to: at,
    removedMl: z.number(),
    exchanges: z.int(),
    missing: z.array(z.strictObject({ at, what: z.enum(['drain', 'fill']) })),
    missingEarlier: z.int(),
    otherInMl: z.number().nullable(),
    otherOutMl: z.number().nullable(),
  })
  .meta({ id: 'Balance', description: 'Complete, or with what is missing. Positive is removed.' });
