import { fieldProblem, ProblemError } from '../../problems.ts';

export const notKept = () =>
  new ProblemError('notFound', 'There is nothing kept under this name that you may decide about, or it is decided.');

export const severalAuthors = () =>
  new ProblemError('refused', 'What is decided together must be of one author, one ward and one patient.', {
    errors: [fieldProblem('severalAuthors', 'batchIds', 'several', 'batches of one author, ward and patient')],
  });

export const otherEntry = (index: number, id: string) =>
  new ProblemError('refused', 'Only what was kept can be sent: same entry, same kind, same patient and visit.', {
    errors: [fieldProblem('otherEntry', `entries.${index}.id`, id, 'an entry of the kept batches, of the same kind')],
  });

export const reasonMissing = () =>
  new ProblemError('refused', 'A reason is needed where another sends, and where something is left out.', {
    errors: [fieldProblem('missing', 'reason', null, 'printable text, 1 to 500 characters')],
  });

export const alreadyRecorded = () =>
  new ProblemError('refused', 'Some of these entries stand in the record: correct or retract them there.', {
    errors: [fieldProblem('recorded', 'batchIds', 'recorded entries', 'batches of which nothing is recorded')],
  });

export const mayWriteNothing = () =>
  new ProblemError('notAllowed', 'Your account records nothing on any ward, so nothing is kept for it.');

export const somebodyElse = () =>
  new ProblemError('notSignedIn', 'Somebody else is signed in here: these entries go out when their author signs in.');
