import { type LoaderFunctionArgs, redirect } from 'react-router';
import { paths } from '../paths.ts';
import { ensureOrKept } from './ensure-or-kept.ts';
import { isSignedOut } from './problems.ts';
import { sessionQuery } from './queries.ts';
import { finishSignOut } from './sign-out.ts';

/** Loader of everything behind the sign-in: who is signed in, else to the sign-in and back afterwards. */
export const requireSession = async ({ request }: LoaderFunctionArgs) => {
  const { pathname, search } = new URL(request.url);
  const toSignIn = () => redirect(paths.signIn(pathname === '/' ? undefined : pathname + search));
  if (await finishSignOut()) throw toSignIn();
  try {
    return await ensureOrKept(sessionQuery);
  } catch (problem) {
    if (!isSignedOut(problem)) throw problem;
    throw toSignIn();
  }
};
