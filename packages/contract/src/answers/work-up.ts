import type { WorkUp } from '@slackwater/domain';
import { z } from 'zod';
import { appearances } from '../entries/observations.ts';
import { WORK_UP_PAYLOADS } from '../entries/work-ups.ts';
import { at, id } from './cavity.ts';

export const workUp: z.ZodType<WorkUp> = z
  .strictObject({
    id,
    openedAt: at,
    drainId: id,
    drainStartedAt: at,
    appearance: appearances,
    dwellMinutes: z.int().nullable(),
    samples: z.array(WORK_UP_PAYLOADS.sampleTaken.extend({ id, at })),
    results: z.array(WORK_UP_PAYLOADS.resultReported.extend({ id, at })),
    antibiotics: z.array(WORK_UP_PAYLOADS.antibioticStarted.omit({ workUpId: true }).extend({ id, at })),
    closed: WORK_UP_PAYLOADS.workUpClosed.omit({ workUpId: true }).extend({ at }).nullable(),
  })
  .meta({ id: 'WorkUp', description: 'A suspected peritonitis, from the drain that raised it to its conclusion.' });
