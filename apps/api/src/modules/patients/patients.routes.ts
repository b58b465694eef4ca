import {
  type AdmissionAnswer,
  admission,
  admissionAnswer,
  identityChange,
  isPrintable,
  type PatientsView,
  patientAnswer,
  patientsView,
} from '@slackwater/contract';
import type { PatientIdentity } from '@slackwater/domain';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { patientParams, wardParams } from './patients.params.ts';
import { search } from './patients.repository.ts';
import { admit, alterIdentity } from './patients.usecases.ts';

const query = z.strictObject({
  search: z.string().trim().min(2, 'two characters or more').max(80).refine(isPrintable, 'printable text'),
});

export function patientRoutes(app: Router, parts: Parts) {
  const { access, pool } = parts;

  app.get(
    '/api/wards/:ward/patients',
    {
      schema: {
        summary: 'Known patients by the beginning of a name or hospital number',
        description: 'Who may admit finds all patients of the hospital; others those who are or were on the ward.',
        tags: ['patients'],
        params: wardParams,
        querystring: query,
        response: { 200: patientsView },
      },
    },
    async (request): Promise<PatientsView> => {
      const by = signedInBy(request);
      const ward = access.openWard(by, request.params.ward, 'readPatient');
      const patients = await search(pool, ward, request.query.search, ward.may('admitAndMove'));
      const found = patients.map(({ patient }) => patient.id);
      const about = { accountId: by.accountId, address: request.ip, wardId: ward.wardId };
      await access.audit.note({ action: 'searchedPatients', ...about, detail: { found } });
      return { patients };
    },
  );

  app.post(
    '/api/patients',
    {
      schema: {
        summary: 'Make a patient known and admit',
        tags: ['patients'],
        body: admission,
        response: { 201: admissionAnswer },
      },
    },
    async (request, reply): Promise<AdmissionAnswer> => {
      reply.code(201);
      return admit(parts, signedInBy(request), request.body, request.ip);
    },
  );

  app.patch(
    '/api/patients/:id',
    {
      schema: {
        summary: "Correct a patient's identity",
        tags: ['patients'],
        params: patientParams,
        body: identityChange,
        response: { 200: patientAnswer },
      },
    },
    async (request): Promise<PatientIdentity> => {
      const patient = await access.openPatient(signedInBy(request), request.params.id, 'admitAndMove');
      return alterIdentity(parts, patient, request.body, request.ip);
    },
  );
}
