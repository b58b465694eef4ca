import type { Conflict } from '@slackwater/contract';
import type { Draft } from '@slackwater/domain';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { serverClock } from '../../../api/clock.ts';
import { bedsideQuery } from '../../../api/queries.ts';
import { Button } from '../../../ui/button.tsx';
import { Dialog } from '../../../ui/dialog.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { KIND_WORDS } from '../model/step-words.ts';
import styles from './conflict-dialog.module.css';
import { afterTheirs, minePutInPlace, myObservations, myStep, whyNotBoth } from './conflict-ways.ts';

type ConflictDialogProps = { drafts: readonly Draft[]; theirs: Conflict };

const agoWords = (ms: number): string =>
  ms < 60_000 ? `${Math.max(1, Math.round(ms / 1000))} s` : `${Math.round(ms / 60_000)} min`;

/** Somebody was faster. Both entries side by side, and three ways on; none of them loses an entry. */
export const ConflictDialog = ({ drafts, theirs }: ConflictDialogProps) => {
  const { state, clock, session, send, dismiss, sending, mayDo, patientId } = useBedside();
  const queries = useQueryClient();
  const [reason, setReason] = useState<string | null>(null);
  const mine = myStep(drafts);
  const them = theirs.authorName ?? 'The tool';
  const sameKind = mine?.kind === theirs.kind;
  const earlier = mine ? agoWords(Math.abs(mine.happenedAt - theirs.happenedAt)) : '';
  const notBoth = whyNotBoth(drafts, state);

  const go = async (batch: readonly Draft[]) => {
    if (batch.length === 0) return dismiss();
    dismiss();
    await send(batch);
  };

  /** Behind what stands in the record now, which this screen may not have seen yet. */
  const both = async () => {
    const query = bedsideQuery(patientId);
    // A look that is under way may have begun before the collision, or hang on a bad line.
    await queries.cancelQueries({ queryKey: query.queryKey });
    const fresh = await queries.fetchQuery({ ...query, staleTime: 0 }).then(
      (view) => view.state,
      () => state,
    );
    if (whyNotBoth(drafts, fresh) === null) await go(afterTheirs(drafts, fresh.head));
  };

  return (
    <Dialog
      title={
        <span className={styles.head}>
          {them} recorded “{KIND_WORDS[theirs.kind].toLowerCase()}” {clock(theirs.happenedAt)}
          {mine ? `, ${earlier} ${mine.happenedAt >= theirs.happenedAt ? 'before' : 'after'} you` : ''}.
        </span>
      }
      onClose={() => void go(myObservations(drafts))}
    >
      <p>Yours is not in the record yet. Which one counts?</p>
      <div className={styles.versus}>
        <div>
          <h3>{them}</h3>
          <p className={`${styles.time} mono`}>{clock(theirs.happenedAt)}</p>
          <p>
            {KIND_WORDS[theirs.kind]}. Received {clock(theirs.receivedAt)}.
          </p>
        </div>
        <div>
          <h3>You, {session.account.name}</h3>
          <p className={`${styles.time} mono`}>{mine ? clock(mine.happenedAt) : ''}</p>
          <p>{drafts.map((draft) => KIND_WORDS[draft.kind]).join(', ')}. On this device.</p>
        </div>
      </div>
      {myObservations(drafts).length > 0 && (
        <p className="quiet">
          {myObservations(drafts)
            .map((draft) => KIND_WORDS[draft.kind])
            .join(', ')}{' '}
          go into the record either way.
        </p>
      )}
      {reason !== null && (
        <Field label="Why yours counts" value={reason} onChange={setReason} maxLength={500} autoFocus />
      )}
      <div className={styles.acts}>
        <Button
          tone="main"
          onPress={() => void go(myObservations(drafts))}
          disabledBecause={sending ? 'being sent' : null}
        >
          {them}’s {clock(theirs.happenedAt)} counts
        </Button>
        <Button
          tone="firm"
          disabledBecause={
            !sameKind
              ? 'they say different things'
              : !mayDo('correctAny')
                ? `correcting ${them}: charge nurse or physician`
                : reason !== null && reason.trim() === ''
                  ? 'the reason is missing'
                  : null
          }
          onPress={() =>
            reason === null
              ? setReason('')
              : void go(minePutInPlace(drafts, theirs, reason.trim(), patientId, serverClock.now()))
          }
        >
          Mine, {mine ? clock(mine.happenedAt) : ''}, with a reason
        </Button>
        <Button disabledBecause={notBoth} onPress={() => void both()}>
          Both happened: mine after theirs
        </Button>
      </div>
    </Dialog>
  );
};
