import { useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { Outlet, useLocation, useNavigate } from 'react-router';
import { isSignedOut } from '../api/problems.ts';
import { sessionQuery } from '../api/queries.ts';
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

/** Everything behind the sign-in; leaves for it when the session ends, and asks for the password over a locked form. */
export const SignedIn = () => {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const { pathname, search } = useLocation();
  const accountId = queries.getQueryData(sessionQuery.queryKey)?.account.id ?? null;
  useEffect(() => (accountId === null ? undefined : beginWork(accountId)), [accountId]);
  useEffect(() => {
    const leave = (problem: unknown) => {
      if (!isSignedOut(problem)) return;
      void import('../outbox/this-device.ts').then(({ endOutbox }) => endOutbox());
      queries.clear();
      navigate(paths.signIn(pathname + search), { replace: true });
    };
    const stops = [
      queries.getQueryCache().subscribe((event) => {
        if (event.type === 'updated' && event.action.type === 'error') leave(event.action.error);
      }),
      queries.getMutationCache().subscribe((event) => {
        if (event.type === 'updated' && event.action.type === 'error') leave(event.action.error);
      }),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }, [queries, navigate, pathname, search]);
  return (
    <>
      <Outlet />
      <PasswordAgain />
    </>
  );
};
