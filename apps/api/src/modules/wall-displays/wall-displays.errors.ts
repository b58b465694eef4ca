import { ProblemError } from '../../problems.ts';

/** The same for a wrong code, a used one and one that has ended: which of them, is not told. */
export const codeUsed = () => new ProblemError('codeUsed', 'Make a new display in the ward’s setup and type its code.');

export const idTaken = () => new ProblemError('idTaken', 'This id stands for another account.');

export const noSuchDisplay = () => new ProblemError('notFound', 'There is no such wall display on this ward.');
