import { useMutation } from '@tanstack/react-query';
import { useState, useSyncExternalStore } from 'react';
import { api } from '../api/client.ts';
import { lock } from '../api/lock.ts';
import { wordsOf } from '../api/problems.ts';
import { useSession } from '../api/use-session.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Field } from '../ui/field.tsx';
import styles from './password-again.module.css';

/** Stands over the kept form when a write met the idle lock; the same write goes on as soon as the password is right. */
export const PasswordAgain = () => {
  const asking = useSyncExternalStore(lock.subscribe, lock.isAsking);
  return asking ? <Question /> : null;
};

const Question = () => {
  const { account } = useSession();
  const [password, setPassword] = useState('');
  const unlock = useMutation({
    mutationFn: () => api.post('/api/unlock', { password }),
    onSuccess: lock.unlocked,
    onError: () => setPassword(''),
  });
  return (
    <Dialog title="Still you?" onClose={lock.refused}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (password !== '') unlock.mutate();
        }}
      >
        <p>
          Nothing was touched for a while, so writing is locked. What you typed is kept and is sent once you give your
          password.
        </p>
        <p>
          Signed in: <b>{account.name}</b>
        </p>
        <Field
          label="Password"
          type="password"
          autoComplete="current-password"
          autoFocus
          value={password}
          onChange={setPassword}
          problem={unlock.isError ? wordsOf(unlock.error) : null}
        />
        <div className={styles.ways}>
          <Button
            tone="main"
            type="submit"
            disabledBecause={unlock.isPending ? 'Checking' : password === '' ? 'Type your password first' : null}
          >
            Go on
          </Button>
          <Button onPress={lock.refused}>Not now</Button>
        </div>
      </form>
    </Dialog>
  );
};
