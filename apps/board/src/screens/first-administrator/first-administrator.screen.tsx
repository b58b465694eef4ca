import type { FirstAdministrator, SignInAnswer } from '@slackwater/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation, useNavigate } from 'react-router';
import { api } from '../../api/client.ts';
import { ApiProblem, wordsOf } from '../../api/problems.ts';
import { sessionQuery } from '../../api/queries.ts';
import { homeOf } from '../../components/home-of.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { PASSWORD_LEAST } from '../hospital/password.ts';
import { Entrance } from '../sign-in/entrance.tsx';
import styles from '../sign-in/sign-in.module.css';

/** Behind the link that the server prints once: makes the hospital's first manager. */
export const Component = () => {
  // in the fragment, which no browser sends and no server writes into a log
  const token = useLocation().hash.slice(1);
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [name, setName] = useState('');
  const [login, setLogin] = useState('');
  const [password, setPassword] = useState('');
  const make = useMutation({
    mutationFn: async (administrator: FirstAdministrator) => {
      const { deviceKey: _, ...session } = await api.post<SignInAnswer>('/api/first-administrator', administrator);
      return session;
    },
    onSuccess: (session) => {
      queries.setQueryData(sessionQuery.queryKey, session);
      navigate(homeOf(session), { replace: true });
    },
  });
  const problemOf = (field: string): string | null =>
    (make.error instanceof ApiProblem && make.error.errors.find((error) => error.field.endsWith(field))?.message) ||
    null;
  const missing =
    token === ''
      ? 'Open the whole link that the server printed'
      : name.trim() === ''
        ? 'Write your name'
        : login === ''
          ? 'Write what you sign in as'
          : password.length < PASSWORD_LEAST
            ? `The password needs ${PASSWORD_LEAST} characters`
            : null;
  return (
    <Entrance title="The first manager" lead="Makes the hospital’s wards and accounts. The link works once.">
      <form
        className={styles.form}
        aria-label="The first manager"
        onSubmit={(event) => {
          event.preventDefault();
          if (missing === null) make.mutate({ token, name: name.trim(), login, password });
        }}
      >
        <Field label="Your name" value={name} onChange={setName} autoComplete="name" problem={problemOf('name')} />
        <Field
          label="You sign in as"
          hint="Lower-case letters, digits, dots, hyphens"
          value={login}
          onChange={setLogin}
          autoComplete="username"
          autoCapitalize="none"
          problem={problemOf('login')}
        />
        <Field
          label="Password"
          hint={`${PASSWORD_LEAST} characters or more; length is what counts`}
          type="password"
          value={password}
          onChange={setPassword}
          autoComplete="new-password"
          problem={problemOf('password') ?? (make.isError ? wordsOf(make.error) : null)}
        />
        <Button tone="main" type="submit" disabledBecause={make.isPending ? 'Sending' : missing}>
          Make the account
        </Button>
      </form>
    </Entrance>
  );
};
