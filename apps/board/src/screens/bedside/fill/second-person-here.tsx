import type { EntriesAnswer, SecondPerson } from '@slackwater/contract';
import type { AdditiveCheck } from '@slackwater/domain/exchange/additive-check';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../../api/client.ts';
import { serverClock } from '../../../api/clock.ts';
import { draft as draftOf } from '../../../api/entries.ts';
import { newId } from '../../../api/ids.ts';
import { NoAnswer, wordsOf } from '../../../api/problems.ts';
import { applyAnswer } from '../../../outbox/apply-answer.ts';
import { Button } from '../../../ui/button.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import formStyles from '../shared/form.module.css';
import { CheckFields, EMPTY_CHECK, missingOf, payloadOf } from './check-fields.tsx';

/** The second person at this device: their own name and password, while the session here stays the first one's. */
export const SecondPersonHere = ({ check }: { check: AdditiveCheck }) => {
  const { patientId, state, view } = useBedside();
  const [found, setFound] = useState(EMPTY_CHECK);
  const [login, setLogin] = useState('');
  const [password, setPassword] = useState('');
  // The same check sent again is the same entry: it counts once.
  const [id, setId] = useState(newId);
  const sign = useMutation({
    mutationFn: () => {
      const about = { id, patientId, visitId: state.visit?.id ?? null };
      const happenedAt = Math.max(serverClock.now(), check.askedAt);
      const entry = draftOf('additiveChecked', payloadOf(found, check.askedId), { ...about, happenedAt });
      const request: SecondPerson = { login, password, wardId: view.wardId, deviceAt: serverClock.now(), entry };
      return api.post<EntriesAnswer>('/api/second-person', request);
    },
    onSuccess: (answer) => applyAnswer(patientId, answer),
    onError: () => setPassword(''),
  });
  const change = (next: typeof found) => {
    setFound(next);
    setId(newId());
  };
  const missing = missingOf(found) ?? (login.trim() === '' ? 'your name' : password === '' ? 'your password' : null);
  const problem = sign.isError
    ? sign.error instanceof NoAnswer
      ? 'No connection: the second person’s sign-in is checked by the server. Nothing was signed.'
      : wordsOf(sign.error)
    : null;
  return (
    <form
      className={formStyles.form}
      autoComplete="off"
      aria-label="Second person at this device"
      onSubmit={(event) => {
        event.preventDefault();
        if (missing === null) sign.mutate();
      }}
    >
      <CheckFields draft={found} onChange={change} />
      <Field label="Second person’s sign-in name" value={login} onChange={setLogin} maxLength={60} autoComplete="off" />
      <Field
        label="Second person’s password"
        type="password"
        autoComplete="off"
        value={password}
        onChange={setPassword}
        problem={problem}
      />
      <div>
        <Button type="submit" tone="main" disabledBecause={sign.isPending ? 'being checked' : missing}>
          Sign as second person
        </Button>
      </div>
    </form>
  );
};
