import { RESPONSE_KEYS, type Role, SETTINGS } from '@slackwater/domain';
import { z } from 'zod';
import type { Live, Ready } from '../health.ts';
import type { ImportAnswer } from '../import.ts';
import type { WardView } from '../wards.ts';
import { at, atOrNull, id } from './cavity.ts';

const role = z.enum(['nurse', 'chargeNurse', 'nephrologist', 'manager', 'wall']) satisfies z.ZodType<Role>;

const solution = z
  .strictObject({
    id,
    label: z.string(),
    strength: z.string(),
    glucoseGPerL: z.number(),
    icodextrinGPerL: z.number(),
    buffer: z.enum(['lactate', 'bicarbonate', 'bicarbonate-lactate']),
    calciumMmolPerL: z.number(),
    sodiumMmolPerL: z.number(),
    bagMl: z.array(z.number()),
    bagExcessMl: z.number().nullable(),
    chambers: z.union([z.literal(1), z.literal(2), z.literal(3)]),
  })
  .meta({ id: 'Solution', description: 'One product of the formulary.' });

const supplies = z.strictObject({
  products: z.array(z.strictObject({ gtin: z.string(), solutionId: id, labelledMl: z.number() })),
  recalls: z.array(
    z.strictObject({
      id,
      lot: z.string(),
      of: z.union([z.strictObject({ gtin: z.string() }), z.strictObject({ solutionId: id })]),
      reason: z.string(),
      since: at,
      ended: z.strictObject({ at, reason: z.string() }).nullable(),
    }),
  ),
});

const policy = z
  .strictObject({
    version: z.int(),
    zone: z.string(),
    shiftStarts: z.array(z.string()),
    formulary: z.array(solution),
    supplies,
    settings: z.strictObject(Object.fromEntries(Object.keys(SETTINGS).map((key) => [key, z.number()]))),
    responses: z.partialRecord(z.enum(RESPONSE_KEYS as [string, ...string[]]), z.string()),
  })
  .meta({ id: 'WardPolicy', description: 'Everything that a ward decides for itself.' });

export const wardView = z
  .strictObject({
    id,
    name: z.string(),
    hospital: z.string(),
    zone: z.string(),
    policy,
    staff: z.array(z.strictObject({ accountId: id, name: z.string(), role })),
    demonstration: z.strictObject({ seededAt: at }).nullable(),
  })
  .meta({ id: 'WardView' }) as unknown as z.ZodType<WardView>;

const live: z.ZodType<Live> = z.strictObject({ status: z.literal('live') });
const ready: z.ZodType<Ready> = z.strictObject({
  status: z.enum(['ready', 'notReady']),
  build: z.string(),
  node: z.string(),
  postgres: z.string().nullable(),
  migrations: z.strictObject({ applied: z.string().nullable(), waiting: z.int() }).nullable(),
  timeZoneData: z.string(),
  epoch: z.string().nullable(),
  alarmsThrough: atOrNull,
  serverAt: at,
});
export const healthAnswer: z.ZodType<Live | Ready> = z.union([live, ready]).meta({ id: 'Health' });

export const importAnswer: z.ZodType<ImportAnswer> = z
  .strictObject({ rows: z.int(), added: z.int(), known: z.int(), patients: z.int() })
  .meta({ id: 'ImportAnswer' });
