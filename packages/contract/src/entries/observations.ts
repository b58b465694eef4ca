import { FINDINGS, SUDDEN_OUTFLOWS, SWELLING_PLACES } from '@slackwater/domain';
import { z } from 'zod';
import { instant, isPrintable, note, real, text, volumeMl, whole } from '../primitives.ts';

/** Which drain of the visit, from 1. */
const drain = whole(1, 50);

const appearance = z.enum(['clear', 'cloudy', 'fibrin', 'pink', 'bloody', 'milky', 'brown', 'green']);
export const appearances = z.array(appearance).max(8);

export const comfort = z.strictObject({
  pain: whole(0, 10).nullable(),
  phase: z.enum(['startOfFill', 'endOfDrain', 'shoulder', 'newOrConstant']).nullable(),
  cramp: z.boolean(),
  breathless: z.boolean(),
  leakAtExit: z.boolean(),
  swelling: z.boolean(),
  swellingAt: z.array(z.enum(SWELLING_PLACES)).max(3).exactOptional(),
  sudden: z.array(z.enum(SUDDEN_OUTFLOWS)).max(2).exactOptional(),
});

export const flowMove = z.enum([
  'kinksAndClamps',
  'bagBelowAbdomen',
  'turnedOnSide',
  'satUp',
  'fibrinInLine',
  'bowels',
]);

const measured = {
  drain,
  role: z.enum(['reading', 'exact']),
  flushIncluded: z.boolean(),
  flushMl: volumeMl,
};

/** A scale's display, grams. */
const grams = real(0, 50_000);

/** Exit-site signs: 0 none, 1 some, 2 marked. */
const sign = z.union([z.literal(0), z.literal(1), z.literal(2)]);

/** Observations carry no `after`: they commute. Ranges: common practice. */
export const OBSERVATION_PAYLOADS = {
  /** null: entered afterwards, and nobody watched it. */
  appearance: z.strictObject({ drain, appearance: appearances.min(1).nullable(), note }),
  comfort: z.strictObject({ phase: z.enum(['drain', 'fill']), comfort: comfort.nullable() }),
  measure: z.discriminatedUnion('method', [
    z.strictObject({
      ...measured,
      method: z.literal('scale'),
      grossG: grams,
      tareG: grams,
      densityGPerMl: real(0.95, 1.1),
    }),
    z.strictObject({ ...measured, method: z.enum(['bagMarks', 'jug']), volumeMl }),
  ]),
  flowMoves: z.strictObject({ drain, tried: z.array(flowMove).min(1).max(6) }),
  flowEffect: z.strictObject({ drain, move: flowMove, effect: z.enum(['runsAgain', 'better', 'same']) }),
  bagFate: z.discriminatedUnion('fate', [
    z.strictObject({ drain, fate: z.literal('discarded') }),
    z.strictObject({ drain, fate: z.literal('kept'), keptWhere: text(200), sampleSent: z.boolean() }),
  ]),
  told: z.strictObject({
    whom: text(120),
    toldAt: instant,
    outcome: note,
    about: text(500),
    finding: z.strictObject({ finding: z.enum(FINDINGS), cause: text(120) }).exactOptional(),
    notReached: z.literal(true).exactOptional(),
  }),
  symptoms: z.strictObject({ comfort, note }),
  cavityConfirmedEmpty: z.strictObject({
    reason: z.enum(['secondDrainUnder100Ml', 'imaging', 'physician']),
    // the reason says enough: here nothing at all may be added
    note: z.string().max(2_000).refine(isPrintable, { error: 'printable text, at most 2000 characters' }),
  }),
  calledFirst: z.strictObject({
    about: z.enum(['pressureTooLow', 'pressureTooOld']),
    by: z.enum(['told', 'override', 'afterwards']),
    whom: text(120).nullable(),
    words: text(500),
  }),
  caution: z.strictObject({
    about: z.enum(['diabetes', 'maltoseIntolerance', 'glycogenStorageDisease']),
    present: z.boolean(),
    note,
  }),
  weight: z.strictObject({ weightKg: real(1, 350), cavity: z.enum(['full', 'empty']) }),
  bloodPressure: z.strictObject({
    systolicMmHg: whole(20, 280),
    diastolicMmHg: whole(20, 280),
    position: z.enum(['lying', 'sitting', 'standing']).nullable(),
  }),
  temperature: z.strictObject({ celsius: real(30, 43) }),
  glucose: z.strictObject({
    glucoseMmolPerL: real(0.5, 60),
    meter: z.enum(['glucoseSpecific', 'other']),
  }),
  bowels: z.strictObject({ opened: z.boolean(), note }),
  otherFluid: z.strictObject({
    direction: z.enum(['in', 'out']),
    route: z.enum(['oral', 'intravenous', 'urine', 'otherDialysis', 'other']),
    volumeMl,
    note,
  }),
  exitSite: z.strictObject({
    pus: z.boolean(),
    swelling: sign,
    crust: sign,
    redness: sign,
    pain: sign,
    drainage: sign,
    note,
  }),
};
