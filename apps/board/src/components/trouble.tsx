import { lazy, Suspense, useEffect } from 'react';
import { isRouteErrorResponse, matchPath, useLocation, useRouteError } from 'react-router';
import { api } from '../api/client.ts';
import { isAway, NoAnswer, wordsOf } from '../api/problems.ts';
import { paths, patterns } from '../paths.ts';
import { Button } from '../ui/button.tsx';
import { cx } from '../ui/class-names.ts';
import { Logo } from '../ui/logo.tsx';
import styles from './trouble.module.css';

const KeptBedsides = lazy(() => import('./kept-bedsides.tsx'));

const TRY_EVERY_MS = 15_000;

/**
 * Loads the page anew once the server answers again. Nobody stands at a wall to press anything, so there it does so
 * whatever went wrong.
 *
 * @returns whether it tries
 */
const useComesBack = (problem: unknown, onWall: boolean): boolean => {
  const tries = onWall || isAway(problem);
  useEffect(() => {
    if (!tries) return;
    const ask = async () => {
      const stillAway = await api.get('/api/session').then(() => false, isAway);
      if (!stillAway) window.location.reload();
    };
    const asking = setInterval(ask, TRY_EVERY_MS);
    return () => clearInterval(asking);
  }, [tries]);
  return tries;
};

/** What stands where a screen could not be shown: why, and what to do. */
export const Trouble = () => {
  const problem = useRouteError();
  const onWall = matchPath(patterns.wall, useLocation().pathname) !== null;
  const tries = useComesBack(problem, onWall);
  const missing = isRouteErrorResponse(problem) && problem.status === 404;
  const title = missing
    ? 'There is nothing at this address'
    : problem instanceof NoAnswer
      ? 'No connection to the ward’s server'
      : 'This screen could not be shown';
  return (
    <main className={cx(styles.trouble, onWall && styles.wall)}>
      <Logo className={styles.logo} />
      <h1>{title}</h1>
      <p>
        {missing ? 'The address may have been typed by hand.' : wordsOf(problem)} Until it is back, look at the beds and
        write on the sheet for when the system is down.
        {tries && ' This page tries again by itself.'}
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
