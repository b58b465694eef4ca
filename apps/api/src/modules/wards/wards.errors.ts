import { fieldProblem, ProblemError } from '../../problems.ts';

export const wardTaken = (id: string) =>
  new ProblemError('taken', 'A ward of this name stands already.', {
    errors: [fieldProblem('wardTaken', 'id', id, 'a name that no other ward has')],
  });

export const noSuchZone = (zone: string) =>
  new ProblemError('invalid', 'The time zone is not known here.', {
    errors: [fieldProblem('noSuchZone', 'zone', zone, 'an IANA name such as Europe/London')],
  });
