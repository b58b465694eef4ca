import { fieldProblem, ProblemError } from '../../problems.ts';

export const hospitalNumberTaken = (hospitalNumber: string) =>
  new ProblemError('taken', 'Another patient has this hospital number: look for the patient before making a new one.', {
    errors: [
      fieldProblem('hospitalNumberTaken', 'hospitalNumber', hospitalNumber, 'a number that no other patient has'),
    ],
  });

export const patientIdTaken = () => new ProblemError('idTaken', 'This id belongs to a patient with another identity.');

export const otherPatient = (patientId: string, admitted: string) =>
  new ProblemError('invalid', 'The admission is for another patient than the identity.', {
    errors: [fieldProblem('otherPatient', 'admission.patientId', admitted, `the identity's own id, ${patientId}`)],
  });
