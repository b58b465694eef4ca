import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { useEffect, useState } from 'react';
import { sessionQuery } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { isPersisted } from '../../outbox/holder.ts';
import type { OutboxNow } from '../../outbox/outbox.ts';
import { askAgain } from '../../outbox/send-touch.ts';
import { STATE_WORDS } from '../../outbox/states.ts';
import { outbox } from '../../outbox/this-device.ts';
import { useReach } from '../../outbox/use-outbox.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { familyName } from '../names.ts';
import styles from './waiting.module.css';
import { clockWithSeconds, entriesOf, entryCount, touchWords } from './waiting-words.ts';

type WaitingDialogProps = { now: OutboxNow; zone: string; onClose: () => void };

/** Where the session has ended, asking who is signed in leads to the sign-in, and from there back to this screen. */
const lookWhoIsSignedIn = async (): Promise<void> => {
  if (outbox.current().heldUp !== null) await queryClient.invalidateQueries({ queryKey: sessionQuery.queryKey });
};

/** Sends what waits now, and may ask for the password, or to sign in, again. */
export const tryNow = (): void => {
  askAgain();
  void outbox.send().then(lookWhoIsSignedIn);
};

/** Everything that waits on this device, in the order in which it goes out, and what stands in its way. */
export const WaitingDialog = ({ now, zone, onClose }: WaitingDialogProps) => {
  const reach = useReach();
  const count = entriesOf(now);
  return (
    <Dialog title={`${entryCount(count)} on this device`} onClose={onClose}>
      <ol className={styles.list}>
        {now.waiting.map(({ sequence, touch, state }) => (
          <li key={sequence}>
            <span className="mono">{formatClock(touch.writtenAt, zone)}</span>
            <span>
              {touchWords(touch.drafts)}
              <small>
                {now.holder && familyName(now.holder.name)}, {STATE_WORDS[state]}
              </small>
            </span>
          </li>
        ))}
      </ol>
      {now.heldUp && (
        <p role="alert">
          <b>{now.heldUp}</b>
        </p>
      )}
      <p>
        Last heard {clockWithSeconds(reach.heardAt, zone)}.
        {now.triedAt !== null && ` Tried ${clockWithSeconds(now.triedAt, zone)}`}
        {now.nextTryAt !== null && `, again ${clockWithSeconds(now.nextTryAt, zone)}`}
        {now.triedAt !== null && '.'}
      </p>
      <OthersHere now={now} />
      <Persisted />
      <div className={styles.ways}>
        <Button tone="main" onPress={tryNow} disabledBecause={count === 0 ? 'nothing waits' : null}>
          Try now
        </Button>
        <Button onPress={onClose}>Back</Button>
      </div>
    </Dialog>
  );
};

/** What waits here and is not this person's to send. */
export const OthersHere = ({ now: { others, newer } }: { now: Pick<OutboxNow, 'others' | 'newer'> }) => (
  <>
    {others.map(({ name, entries }) => (
      <p key={name}>
        {entryCount(entries)} of {name} {entries === 1 ? 'waits' : 'wait'} here, sealed, and{' '}
        {entries === 1 ? 'goes' : 'go'} out when {name} signs in on this device.
      </p>
    ))}
    {newer > 0 && (
      <p>
        {entryCount(newer)} here {newer === 1 ? 'was' : 'were'} written by a newer version of this page and{' '}
        {newer === 1 ? 'is' : 'are'} kept untouched: load the page again with network.
      </p>
    )}
  </>
);

const Persisted = () => {
  const [persisted, setPersisted] = useState<boolean | null>(null);
  useEffect(() => {
    isPersisted().then(setPersisted, () => setPersisted(null));
  }, []);
  return (
    <p className="quiet">
      {persisted
        ? 'This browser has promised to keep them until they are sent.'
        : 'This browser has not promised to keep them: when its disk runs full it may delete what waits.'}{' '}
      If this device fails, write on the sheet beside the bed and enter it afterwards with its own times.
    </p>
  );
};

/** How far a clock moved, in words. */
export const steppedWords = (ms: number): string =>
  `${formatMinutes(Math.max(1, Math.round(Math.abs(ms) / 60_000)))} ${ms > 0 ? 'later' : 'earlier'}`;
