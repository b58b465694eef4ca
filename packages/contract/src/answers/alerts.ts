import { z } from 'zod';
import type { AlertMeasuresView, ClearedAlertsView, HooksView } from '../alerts.ts';
import { alertKind, alertRank } from './bedside.ts';
import { at, atOrNull, id } from './cavity.ts';

export const clearedAlertsView: z.ZodType<ClearedAlertsView> = z
  .strictObject({
    from: at,
    alerts: z.array(
      z.strictObject({
        id,
        patientId: id,
        patientName: z.string(),
        bed: z.string().nullable(),
        kind: alertKind,
        rank: alertRank,
        since: at,
        raisedAt: at,
        settingsVersion: z.int(),
        acknowledgedAt: atOrNull,
        clearedAt: at,
        clearedBy: z.enum(['condition', 'person']),
        clearedByName: z.string().nullable(),
        reason: z.string().nullable(),
      }),
    ),
    more: z.boolean(),
  })
  .meta({ id: 'ClearedAlertsView' });

const share = z.strictObject({ count: z.int(), of: z.int(), percent: z.number() });

export const alertMeasuresView: z.ZodType<AlertMeasuresView> = z
  .strictObject({
    from: at,
    to: at,
    raised: z.int(),
    nurseMinutes: z.number(),
    perNurseTenMinutes: z.number().nullable(),
    byRank: z.strictObject({ high: share.nullable(), medium: share.nullable(), low: share.nullable() }),
    minutesToAcknowledge: z.strictObject({ median: z.number(), p90: z.number(), count: z.int() }).nullable(),
    neverActedOn: share.nullable(),
    noisiest: z.array(z.strictObject({ kind: alertKind, raised: share, neverActedOn: share.nullable() })),
  })
  .meta({ id: 'AlertMeasuresView', description: 'What the tool says about its own alerts; null: nothing to count.' });

export const hooksView: z.ZodType<HooksView> = z
  .strictObject({
    hooks: z.array(
      z.strictObject({
        url: z.string(),
        ranks: z.array(alertRank),
        lastTakenAt: atOrNull,
        takenToday: z.int(),
        waiting: z.int(),
        nextTryAt: atOrNull,
        lastError: z.string().nullable(),
        givenUp: z.int(),
      }),
    ),
  })
  .meta({ id: 'HooksView' });
