import { type BedsideView, bedsideView } from '@slackwater/contract';
import type { Parts } from '../parts.ts';
import { patientParams } from '../patients/patients.params.ts';
import { readPatient } from '../patients/read-patient.ts';
import type { Router } from '../router.ts';
import { bedsideOf } from './bedside.usecases.ts';

export function bedsideRoutes(app: Router, parts: Parts) {
  app.get(
    '/api/patients/:id/bedside',
    {
      schema: {
        summary: 'Where the exchange of a patient stands',
        tags: ['patients'],
        params: patientParams,
        response: { 200: bedsideView },
      },
    },
    async (request): Promise<BedsideView> => bedsideOf(parts, await readPatient(parts, request, request.params.id)),
  );
}
