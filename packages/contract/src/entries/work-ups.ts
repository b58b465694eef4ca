import { CELL_COUNT_UNITS, SAMPLE_TESTS } from '@slackwater/domain';
import { z } from 'zod';
import { calendarDate, note, real, text, uuid, whole } from '../primitives.ts';

/** A culture, as far as the laboratory has it. */
export const culture = z.discriminatedUnion('state', [
  z.strictObject({ state: z.literal('notTaken') }),
  z.strictObject({ state: z.literal('pending') }),
  z.strictObject({ state: z.literal('sterile') }),
  z.strictObject({ state: z.literal('grown'), organisms: z.array(text(120)).min(1).max(8) }),
]);

/** A suspected peritonitis; the tool itself opens it. */
export const WORK_UP_PAYLOADS = {
  sampleTaken: z.strictObject({
    workUpId: uuid,
    tests: z.array(z.enum(SAMPLE_TESTS)).min(1).max(SAMPLE_TESTS.length),
    drainId: uuid.nullable(),
    dwellMinutes: whole(0, 2_880).nullable(),
    bottles: whole(0, 10),
    beforeAntibiotic: z.boolean(),
    bagKeptWhere: text(200).nullable(),
    note,
  }),
  resultReported: z.strictObject({
    workUpId: uuid,
    sampleId: uuid.nullable(),
    /** The unit travels with the number: 10⁹/L is a thousand times 10⁶/L. */
    whiteCells: z.strictObject({ value: real(0, 1_000_000), unit: z.enum(CELL_COUNT_UNITS) }).nullable(),
    polymorphPercent: real(0, 100).nullable(),
    gramStain: text(500).nullable(),
    culture: culture.nullable(),
    note,
  }),
  antibioticStarted: z.strictObject({
    workUpId: uuid,
    what: text(120),
    startedOn: calendarDate,
    answers: z.enum(['yes', 'no', 'notKnown']),
    note,
  }),
  workUpClosed: z.strictObject({
    workUpId: uuid,
    conclusion: z.enum(['peritonitis', 'notPeritonitis', 'other']),
    reason: text(500),
  }),
};
