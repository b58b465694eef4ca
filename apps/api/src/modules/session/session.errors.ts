import { ProblemError } from '../../problems.ts';

/** The same for a wrong name, a wrong password and a disabled account: which of them, is not told. */
export const wrongSignIn = () => new ProblemError('wrongSignIn', 'There is no account with this name and password.');

export const wrongPassword = () => new ProblemError('wrongSignIn', 'This is not the password of the account.');

export const linkUsed = () =>
  new ProblemError('linkUsed', 'Start the server again for a new link, if no manager has been made yet.');
