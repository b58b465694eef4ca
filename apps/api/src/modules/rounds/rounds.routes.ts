import { type RoundsView, roundsView } from '@slackwater/contract';
import { z } from 'zod';
import type { Parts } from '../parts.ts';
import { patientParams } from '../patients/patients.params.ts';
import { readPatient } from '../patients/read-patient.ts';
import type { Router } from '../router.ts';
import { wardOf } from '../wards/wards.repository.ts';
import { roundsOf } from './rounds.usecases.ts';

const query = z.strictObject({ days: z.coerce.number().int().min(1).max(366).default(30) });

export function roundsRoutes(app: Router, parts: Parts) {
  app.get(
    '/api/patients/:id/rounds',
    {
      schema: {
        summary: 'Dwells, day balances, weight, blood pressure and other fluids of the last days',
        tags: ['patients'],
        params: patientParams,
        querystring: query,
        response: { 200: roundsView },
      },
    },
    async (request): Promise<RoundsView> => {
      const patient = await readPatient(parts, request, request.params.id);
      const { policy, now } = await wardOf(parts.pool, parts.policies, patient.ward);
      return roundsOf(parts.prisma, patient, policy, now, request.query.days);
    },
  );
}
