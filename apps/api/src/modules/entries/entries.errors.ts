import type { FieldProblem } from '@slackwater/contract';
import type { EntryKind } from '@slackwater/domain';
import { fieldProblem, ProblemError } from '../../problems.ts';
import type { AppendFailure } from '../../record/failures.ts';

const WORDS = (problems: readonly FieldProblem[]) => problems.map(({ message }) => message).join(' ');

/** The record's refusal as a problem of the wire. */
export function asProblem(failure: AppendFailure): ProblemError {
  switch (failure.code) {
    case 'conflict':
      return new ProblemError('conflict', 'Another step was recorded first. Look at it, then decide again.', {
        conflict: failure.headMoved,
      });
    case 'idTaken':
      return new ProblemError('idTaken', `The id ${failure.entryId} stands in the record for something else.`);
    case 'taken':
      return new ProblemError('taken', WORDS(failure.problems), { errors: failure.problems });
    case 'unknownAfter':
      return new ProblemError('unknownAfter', 'The step that this one follows has not arrived yet.', {
        retryAfterS: 1,
      });
    case 'refused':
      return new ProblemError('refused', WORDS(failure.problems), { errors: failure.problems });
    case 'notFound':
      return new ProblemError('notFound', 'There is no such patient on this ward.');
    case 'busy':
      return new ProblemError('busy', 'Too much is written for this patient at once.', { retryAfterS: 1 });
  }
}

export const severalPatients = () =>
  new ProblemError('invalid', 'A batch speaks of one patient, or of the ward.', {
    errors: [fieldProblem('severalPatients', 'entries', 'several patients', 'entries of one patient')],
  });

export const unknownTarget = (index: number, target: string) =>
  new ProblemError('refused', 'There is no such entry to correct.', {
    errors: [fieldProblem('unknownTarget', `entries.${index}.payload.target`, target, 'an entry of this patient')],
  });

export const cannotBeCorrected = (index: number, kind: EntryKind) =>
  new ProblemError('refused', `An entry of the kind "${kind}" is retracted and entered anew, not corrected.`, {
    errors: [
      fieldProblem('cannotBeCorrected', `entries.${index}.payload.target`, kind, 'an entry that a person wrote'),
    ],
  });

export const notOnStaff = (index: number, field: string, accountId: string) =>
  new ProblemError('refused', 'This person does not work on the ward, or may not sign in any more.', {
    errors: [
      fieldProblem('notOnStaff', `entries.${index}.payload.${field}`, accountId, "an account of the ward's staff"),
    ],
  });

export const noEntryOfAnother = (index: number, enteredAs: string) =>
  new ProblemError('refused', 'What was entered for the right patient is not there.', {
    errors: [
      fieldProblem(
        'unknownEnteredAs',
        `entries.${index}.payload.enteredAs`,
        enteredAs,
        'an entry of another patient that you may see',
      ),
    ],
  });
