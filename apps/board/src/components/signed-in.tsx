import { useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { Outlet, useLocation, useNavigate } from 'react-router';
import { isSignedOut } from '../api/problems.ts';
import { paths } from '../paths.ts';
import { PasswordAgain } from './password-again.tsx';

/** Everything behind the sign-in; leaves for it when the session ends, and asks for the password over a locked form. */
export const SignedIn = () => {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const { pathname, search } = useLocation();
  useEffect(() => {
    const leave = (problem: unknown) => {
      if (!isSignedOut(problem)) return;
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
