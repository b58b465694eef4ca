import { type DrainLearningView, drainLearningView } from '@slackwater/contract';
import { learnDwells } from '@slackwater/domain';
import type { Parts } from '../parts.ts';
import { patientParams } from '../patients/patients.params.ts';
import { readPatient } from '../patients/read-patient.ts';
import type { Router } from '../router.ts';
import { wardOf } from '../wards/wards.repository.ts';
import { closedDwells } from './expected-drain.repository.ts';

/**
 * Learned anew whenever a bedside asks: a correction of an old dwell then needs no care, and an entry costs the same
 * whatever the history behind it. The bedside works out the drain of any fluid at any minute from it by itself.
 */
export function expectedDrainRoutes(app: Router, parts: Parts) {
  app.get(
    '/api/patients/:id/drain-learning',
    {
      schema: {
        summary: 'What the drains of the closed dwells taught about what to expect of the next',
        tags: ['patients'],
        params: patientParams,
        response: { 200: drainLearningView },
      },
    },
    async (request): Promise<DrainLearningView> => {
      const patient = await readPatient(parts, request, request.params.id);
      const [{ policy }, dwells] = await Promise.all([
        wardOf(parts.pool, parts.policies, patient.ward),
        closedDwells(parts.pool, patient),
      ]);
      return learnDwells(dwells, policy.formulary, { residualMl: policy.settings.residualMl });
    },
  );
}
