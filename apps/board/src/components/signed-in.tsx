import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useLayoutEffect } from 'react';
import { Outlet, useLocation, useNavigate, useNavigationType } from 'react-router';
import { isSignedOut } from '../api/problems.ts';
import { sessionQuery } from '../api/queries.ts';
import { useSession } from '../api/use-session.ts';
import { useEachMinute } from '../live/now.ts';
import { paths } from '../paths.ts';
import { afterBoard, loadBeside } from './after-board.ts';
import { PasswordAgain } from './password-again.tsx';

/** Opens what waits on this device and keeps what the screens show; the first board does not wait for it. */
const beginWork = (accountId: string) => {
  let stop = () => {};
  const ended = new AbortController();
  const atBed = window.location.pathname.startsWith('/patients/');
  const load = () =>
    loadBeside(() => Promise.all([import('../outbox/this-device.ts'), import('../outbox/kept-views.ts')]));
  void (atBed ? load() : afterBoard().then(load)).then(([{ beginOutbox }, { keepViews }]) => {
    if (ended.signal.aborted) return;
    stop = keepViews();
    void beginOutbox(accountId);
  });
  return () => {
    ended.abort();
    stop();
  };
};

/** The session ends at its instant also where no server can say so: without network nothing is shown for longer. */
const AbsoluteEnd = ({ onEnd }: { onEnd: () => void }) => {
  const { endsAt } = useSession();
  const isOver = useEachMinute((now) => now >= endsAt);
  useEffect(() => {
    if (isOver) onEnd();
  }, [isOver, onEnd]);
  return null;
};

/** Everything behind the sign-in; leaves for it when the session ends, and asks for the password over a locked form. */
export const SignedIn = () => {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const { pathname, search } = useLocation();
  const cameBack = useNavigationType() === 'POP';
  // A screen opens at its head; on the way back the browser knows where it was.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the path is not used, it is what scrolls
  useLayoutEffect(() => {
    if (!cameBack) window.scrollTo(0, 0);
  }, [pathname]);
  const accountId = queries.getQueryData(sessionQuery.queryKey)?.account.id ?? null;
  useEffect(() => (accountId === null ? undefined : beginWork(accountId)), [accountId]);
  const leave = useCallback(() => {
    void import('../outbox/this-device.ts').then(({ endOutbox }) => endOutbox());
    queries.clear();
    navigate(paths.signIn(pathname + search), { replace: true });
  }, [queries, navigate, pathname, search]);
  useEffect(() => {
    const look = (problem: unknown) => {
      if (isSignedOut(problem)) leave();
    };
    const stops = [
      queries.getQueryCache().subscribe((event) => {
        if (event.type === 'updated' && event.action.type === 'error') look(event.action.error);
      }),
      queries.getMutationCache().subscribe((event) => {
        if (event.type === 'updated' && event.action.type === 'error') look(event.action.error);
      }),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }, [queries, leave]);
  return (
    <>
      <Outlet />
      <PasswordAgain />
      <AbsoluteEnd onEnd={leave} />
    </>
  );
};
