import type { KeptDiscard, KeptSend, WardView } from '@slackwater/contract';
import type { Draft } from '@slackwater/domain';
import { formatClock, formatDate, formatIsoDate } from '@slackwater/domain/words/numbers';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { api } from '../../api/client.ts';
import { ApiProblem, wordsOf } from '../../api/problems.ts';
import { bedsideQuery, patientKey } from '../../api/queries.ts';
import { useSession } from '../../api/use-session.ts';
import { familyName } from '../../components/names.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { entryWords } from '../patient-record/words/entry-words.ts';
import { EntryLine } from './entry-line.tsx';
import styles from './kept.module.css';
import { type Amendment, AS_WRITTEN, type KeptGroup, keptWords, toSend } from './kept-group.ts';

/** One author's refused entries at one bed: look, put times right or leave some out, send again, or discard. */
export const GroupPanel = ({ group, ward }: { group: KeptGroup; ward: WardView }) => {
  const { account } = useSession();
  const queries = useQueryClient();
  const [amendment, setAmendment] = useState<Amendment>({});
  const [reason, setReason] = useState('');
  const { patientId, patient, author, entries, batches } = group;
  const view = useQuery({ ...bedsideQuery(patientId ?? ''), enabled: patientId !== null && patient !== null });
  const isMine = author.id === account.id;
  const words = { clock: (at: number) => formatClock(at, ward.zone), formulary: ward.policy.formulary };
  const say = ({ kind, payload }: Draft) => entryWords(kind, payload as Readonly<Record<string, unknown>>, words).what;
  const batchIds = batches.map(({ id }) => id);

  const decide = useMutation({
    mutationFn: async (what: 'send' | 'discard') => {
      const said = reason.trim();
      if (what === 'discard') {
        const body: KeptDiscard = { batchIds, reason: said };
        return api.post('/api/kept/discard', body);
      }
      const going = toSend(entries, amendment, view.data?.state ?? null);
      const body: KeptSend = { batchIds, entries: going, reason: said === '' ? null : said };
      return api.post('/api/kept/send', body);
    },
    onSettled: () => {
      void queries.invalidateQueries({ queryKey: ['kept'] });
      if (patientId) void queries.invalidateQueries({ queryKey: patientKey(patientId) });
    },
  });

  const leftOut = entries.filter(({ id }) => amendment[id]?.leftOut).length;
  const unreadable = entries.some(({ id }) => amendment[id]?.unreadable && !amendment[id]?.leftOut);
  const needsReason = (!isMine || leftOut > 0) && reason.trim() === '';
  const problems = [...new Set(batches.map(({ problem }) => problem.detail))];
  const refusedAgain =
    decide.error instanceof ApiProblem && decide.error.errors.length > 0
      ? decide.error.errors.map(({ message }) => message).join(' ')
      : decide.error && wordsOf(decide.error);

  return (
    <article className={styles.group}>
      <h3>
        {patient && patientId ? (
          <Link to={paths.bedside(patientId)}>
            {patient.family}, {patient.given}
          </Link>
        ) : (
          'A patient on none of your wards'
        )}
        {patient && (
          <small>
            born {formatIsoDate(patient.dateOfBirth)}, {patient.hospitalNumber}
          </small>
        )}
      </h3>
      <p>
        Written by <b>{author.name}</b>, {formatDate(batches[0]?.deviceAt ?? 0, ward.zone)}{' '}
        {words.clock(batches[0]?.deviceAt ?? 0)}. Refused {words.clock(batches.at(-1)?.keptAt ?? 0)}:
      </p>
      <ul className={styles.why}>
        {problems.map((problem) => (
          <li key={problem}>{problem}</li>
        ))}
      </ul>
      <ol className={styles.entries}>
        {entries.map((entry) => (
          <EntryLine
            key={entry.id}
            entry={entry}
            zone={ward.zone}
            words={keptWords(entry, say)}
            amended={amendment[entry.id] ?? AS_WRITTEN}
            onAmend={(change) => setAmendment({ ...amendment, [entry.id]: change })}
          />
        ))}
      </ol>
      <Field
        label={isMine ? 'Reason, for what is left out or discarded' : `Reason, instead of ${familyName(author.name)}`}
        value={reason}
        onChange={setReason}
        maxLength={500}
      />
      {refusedAgain && (
        <p role="alert">
          <b>Not recorded.</b> {refusedAgain}
        </p>
      )}
      <div className={styles.ways}>
        <Button
          tone="main"
          onPress={() => decide.mutate('send')}
          disabledBecause={
            decide.isPending
              ? 'being sent'
              : leftOut === entries.length
                ? 'everything is left out'
                : unreadable
                  ? 'a time cannot be read'
                  : needsReason
                    ? 'the reason is missing'
                    : null
          }
        >
          {isMine ? 'Send again' : `Release for ${familyName(author.name)}`}
          {leftOut > 0 && `, ${entries.length - leftOut} of ${entries.length}`}
        </Button>
        <Button
          onPress={() => decide.mutate('discard')}
          disabledBecause={decide.isPending ? 'being sent' : reason.trim() === '' ? 'the reason is missing' : null}
        >
          Discard all
        </Button>
      </div>
      {!isMine && (
        <p className="quiet">The entries stay {author.name}’s. Your name stands beside them as who let them in.</p>
      )}
    </article>
  );
};
