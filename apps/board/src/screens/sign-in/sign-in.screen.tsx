import type { SignInAnswer } from '@slackwater/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { lazy, Suspense, useState } from 'react';
import { Link, useNavigate, useSearchParams } from 'react-router';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { sessionQuery } from '../../api/queries.ts';
import { signedInAnew } from '../../api/sign-out.ts';
import { homeOf } from '../../components/home-of.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Entrance } from './entrance.tsx';
import { safeBack } from './safe-back.ts';
import styles from './sign-in.module.css';

const LeftHere = lazy(() => import('../../components/waiting/left-here.tsx'));

export const Component = () => {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [search] = useSearchParams();
  const [login, setLogin] = useState('');
  const [password, setPassword] = useState('');
  const signIn = useMutation({
    mutationFn: async () => {
      const { deviceForSignIn, keepKey } = await import('../../outbox/holder.ts');
      const asked = { login: login.trim(), password, ...(await deviceForSignIn()) };
      const answer = await api.post<SignInAnswer>('/api/sign-in', asked);
      signedInAnew();
      return keepKey(answer);
    },
    onSuccess: (session) => {
      queries.clear();
      queries.setQueryData(sessionQuery.queryKey, session);
      navigate(safeBack(search.get('back')) ?? homeOf(session), { replace: true });
    },
    onError: () => setPassword(''),
  });
  const missing = login.trim() === '' ? 'Type your name first' : password === '' ? 'Type your password first' : null;
  return (
    <Entrance title="Every exchange, on time" lead="Unit board and bedside record for manual peritoneal dialysis">
      <form
        className={styles.form}
        aria-label="Sign in"
        onSubmit={(event) => {
          event.preventDefault();
          if (!missing && !signIn.isPending) signIn.mutate();
        }}
      >
        <Field
          label="Name on your badge"
          autoComplete="username"
          autoCapitalize="none"
          spellCheck={false}
          value={login}
          onChange={setLogin}
        />
        <Field
          label="Password"
          type="password"
          autoComplete="current-password"
          value={password}
          onChange={setPassword}
          problem={signIn.isError ? wordsOf(signIn.error) : null}
        />
        <Button tone="main" type="submit" disabledBecause={signIn.isPending ? 'Checking' : missing}>
          Sign in
        </Button>
        <Suspense fallback={null}>
          <LeftHere />
        </Suspense>
        <p className={styles.small}>
          <Link to={paths.openWall()}>Open a wall display with its code</Link>
        </p>
        <p className={styles.small}>
          Writing locks by itself when nothing is touched for a while. What you typed stays on the screen.
        </p>
      </form>
    </Entrance>
  );
};
