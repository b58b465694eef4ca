import { fieldProblem, ProblemError } from '../../problems.ts';

export const noSuchAccount = () => new ProblemError('notFound', 'There is no such account.');

export const loginTaken = (login: string) =>
  new ProblemError('taken', 'Somebody else signs in with this name.', {
    errors: [fieldProblem('loginTaken', 'login', login, 'a name that nobody else has')],
  });

export const idTaken = () => new ProblemError('idTaken', 'This id belongs to another account.');

export const noSuchWard = (wardId: string) =>
  new ProblemError('invalid', 'A role names a ward that does not exist.', {
    errors: [fieldProblem('noSuchWard', 'roles', wardId, 'a ward of this hospital')],
  });

export const lastManager = () =>
  new ProblemError('refused', 'Nobody could manage the hospital any more.', {
    errors: [fieldProblem('lastManager', 'manager', false, 'possible for the last manager of the hospital')],
  });
