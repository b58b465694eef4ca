import type { Session } from '@slackwater/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation, useNavigate } from 'react-router';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { sessionQuery } from '../../api/queries.ts';
import { homeOf } from '../../components/home-of.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Entrance } from '../sign-in/entrance.tsx';
import styles from '../sign-in/sign-in.module.css';

/** On the device that hangs on the wall: its code, typed once, in place of a password. */
export const Component = () => {
  const fromLink = useLocation().hash.slice(1);
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [code, setCode] = useState(fromLink);
  const open = useMutation({
    mutationFn: () => api.post<Session>('/api/wall-displays/open', { code }),
    onSuccess: (session) => {
      queries.clear();
      queries.setQueryData(sessionQuery.queryKey, session);
      navigate(homeOf(session), { replace: true });
    },
  });
  const missing = code.trim() === '' ? 'Type the code first' : null;
  return (
    <Entrance
      title="A wall display"
      lead="Shows one ward without names, for 90 days. Its code is made in the ward’s settings and works once."
    >
      <form
        className={styles.form}
        aria-label="A wall display"
        onSubmit={(event) => {
          event.preventDefault();
          if (missing === null && !open.isPending) open.mutate();
        }}
      >
        <Field
          label="Code"
          hint="Three groups of four; hyphens need not be typed"
          value={code}
          onChange={setCode}
          autoComplete="off"
          autoCapitalize="characters"
          spellCheck={false}
          problem={open.isError ? wordsOf(open.error) : null}
        />
        <Button tone="main" type="submit" disabledBecause={open.isPending ? 'Checking' : missing}>
          Open the display
        </Button>
      </form>
    </Entrance>
  );
};
