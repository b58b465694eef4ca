import { randomUUIDv7 } from 'node:crypto';
import { MINUTE_MS } from '@slackwater/domain';
import { WARD } from './ward.ts';

/** What a nurse's device sends for one weight. */
export const weightOf = (patientId: string) => ({
  wardId: WARD,
  deviceAt: Date.now(),
  entries: [
    {
      id: randomUUIDv7(),
      kind: 'weight',
      format: 1,
      payload: { weightKg: 70, cavity: 'full' },
      patientId,
      visitId: null,
      happenedAt: Date.now() - MINUTE_MS,
      after: null,
    },
  ],
});
