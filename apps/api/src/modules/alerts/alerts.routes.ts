import {
  type AlertMeasuresView,
  alertMeasuresView,
  type ClearedAlertsView,
  clearedAlertsView,
} from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import { wardParams } from '../patients/patients.params.ts';
import type { Router } from '../router.ts';
import { clearedToday, measuresOf } from './alerts.usecases.ts';

/** A shift, a day, a week, a month: 31 days at most. */
const time = z.strictObject({
  hours: z.coerce
    .number()
    .int()
    .min(1)
    .max(31 * 24)
    .default(24),
});

export function alertRoutes(app: Router, parts: Parts) {
  const { access } = parts;
  app.get(
    '/api/wards/:ward/alerts/cleared',
    {
      schema: {
        summary: 'Alerts that ended since the ward day began, the newest first',
        tags: ['alerts'],
        params: wardParams,
        response: { 200: clearedAlertsView },
      },
    },
    async (request): Promise<ClearedAlertsView> =>
      clearedToday(parts, access.openWard(signedInBy(request), request.params.ward, 'readBoard')),
  );

  app.get(
    '/api/wards/:ward/alerts/measures',
    {
      schema: {
        summary: 'What the tool says about its own alerts of the last hours',
        tags: ['alerts'],
        params: wardParams,
        querystring: time,
        response: { 200: alertMeasuresView },
      },
    },
    async (request): Promise<AlertMeasuresView> =>
      measuresOf(parts, access.openWard(signedInBy(request), request.params.ward, 'readBoard'), request.query.hours),
  );
}
