import { type LoaderFunctionArgs, redirect } from 'react-router';
import { paths } from '../paths.ts';
import { isSignedOut } from './problems.ts';
import { sessionQuery } from './queries.ts';
import { queryClient } from './query-client.ts';

/** Loader of everything behind the sign-in: who is signed in, else to the sign-in and back afterwards. */
export const requireSession = async ({ request }: LoaderFunctionArgs) => {
  try {
    return await queryClient.ensureQueryData(sessionQuery);
  } catch (problem) {
    if (!isSignedOut(problem)) throw problem;
    const { pathname, search } = new URL(request.url);
    throw redirect(paths.signIn(pathname === '/' ? undefined : pathname + search));
  }
};
