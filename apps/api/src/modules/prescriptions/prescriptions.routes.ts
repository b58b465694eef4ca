import { type PrescriptionsView, prescriptionsView } from '@slackwater/contract';
import type { Parts } from '../parts.ts';
import { patientParams } from '../patients/patients.params.ts';
import { readPatient } from '../patients/read-patient.ts';
import type { Router } from '../router.ts';
import { namesOf, ordersOf, revisionsOf } from './prescriptions.repository.ts';

export function prescriptionRoutes(app: Router, parts: Parts) {
  app.get(
    '/api/patients/:id/prescriptions',
    {
      schema: {
        summary: 'Prescription revisions and orders, newest first',
        tags: ['patients'],
        params: patientParams,
        response: { 200: prescriptionsView },
      },
    },
    async (request): Promise<PrescriptionsView> => {
      const patient = await readPatient(parts, request, request.params.id);
      const [revisions, orders] = await Promise.all([
        revisionsOf(parts.prisma, patient),
        ordersOf(parts.prisma, patient),
      ]);
      const authors = [
        ...revisions.map(({ prescribedBy }) => prescribedBy),
        ...orders.flatMap(({ givenBy, countersignedBy }) => [givenBy, countersignedBy]),
      ].filter((id) => id !== null);
      return { revisions, orders, names: await namesOf(parts.prisma, patient.ward.siteId, authors) };
    },
  );
}
