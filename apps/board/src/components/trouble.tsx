import { lazy, Suspense } from 'react';
import { isRouteErrorResponse, useRouteError } from 'react-router';
import { NoAnswer, wordsOf } from '../api/problems.ts';
import { paths } from '../paths.ts';
import { Button } from '../ui/button.tsx';
import { Logo } from '../ui/logo.tsx';
import styles from './trouble.module.css';

const KeptBedsides = lazy(() => import('./kept-bedsides.tsx'));

/** What stands where a screen could not be shown: why, and what to do. */
export const Trouble = () => {
  const problem = useRouteError();
  const missing = isRouteErrorResponse(problem) && problem.status === 404;
  const title = missing
    ? 'There is nothing at this address'
    : problem instanceof NoAnswer
      ? 'No connection to the ward’s server'
      : 'This screen could not be shown';
  return (
    <main className={styles.trouble}>
      <Logo className={styles.logo} />
      <h1>{title}</h1>
      <p>
        {missing ? 'The address may have been typed by hand.' : wordsOf(problem)} Until it is back, look at the beds and
        write on the sheet for when the system is down.
      </p>
      {problem instanceof NoAnswer && (
        <Suspense fallback={null}>
          <KeptBedsides />
        </Suspense>
      )}
      <p className={styles.ways}>
        <Button tone="main" onPress={() => window.location.reload()}>
          Try again
        </Button>
        <a href={paths.home()}>To the board</a>
      </p>
    </main>
  );
};
