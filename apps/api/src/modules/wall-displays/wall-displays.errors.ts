import { ProblemError } from '../../problems.ts';

/** The same for a wrong code, a used one and one that has ended: which of them, is not told. */
export const codeUsed = () =>
  new ProblemError(
    'codeUsed',
    'This code opens no display: it is mistyped, was used, or its time is over. Renew the display in the ward’s settings, or make a new one, and type its code.',
  );

export const idTaken = () => new ProblemError('idTaken', 'This id stands for another account.');

/** Which of them, is not told either: one that was ended is made anew, one with a password signs in with it. */
export const cannotBeRenewed = () =>
  new ProblemError('notFound', 'There is no wall display on this ward that is in use and is opened by a code.');

export const noSuchDisplay = () => new ProblemError('notFound', 'There is no such wall display on this ward.');
