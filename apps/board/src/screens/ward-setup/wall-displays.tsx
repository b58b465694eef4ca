import type { WallDisplay, WardView } from '@slackwater/contract';
import { type EpochMs, MINUTE_MS } from '@slackwater/domain/time/instant';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { newId } from '../../api/ids.ts';
import { wordsOf } from '../../api/problems.ts';
import { useMinute } from '../../live/now.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import styles from './wall-displays.module.css';
import { useWallDisplayChanges, wallDisplaysQuery } from './wall-displays-query.ts';

/** The devices that show this ward on its walls: made here, opened there by a code, ended here at once. */
export const WallDisplays = ({ ward }: { ward: WardView }) => {
  const { data, error } = useQuery(wallDisplaysQuery(ward.id));
  const { make, revoke } = useWallDisplayChanges(ward.id);
  const [name, setName] = useState('');
  const made = make.data;
  const cannot = name.trim() === '' ? 'Write where it hangs' : make.isPending ? 'Sending' : null;
  return (
    <section className={styles.section} aria-label="Wall displays">
      <h2>Wall displays</h2>
      <p>Each shows this ward without names, changes nothing, and ends by itself 90 days after it was opened.</p>
      {error && <p role="alert">{wordsOf(error)}</p>}
      <ul className={styles.list}>
        {data?.displays.map((display) => (
          <li key={display.id}>
            <b>{display.name}</b>
            <span>
              <Standing display={display} zone={ward.zone} />
            </span>
            {display.revokedAt === null && (
              <Button
                aria-label={`End it now: ${display.name}`}
                disabledBecause={revoke.isPending ? 'Sending' : null}
                onPress={() => revoke.mutate(display.id)}
              >
                End it now
              </Button>
            )}
          </li>
        ))}
      </ul>
      {revoke.isError && <p role="alert">{wordsOf(revoke.error)}</p>}
      {made && (
        <div className={styles.code} role="status">
          <p>
            Type on the device at <b>{window.location.origin + paths.openWall()}</b> before{' '}
            {formatClock(made.codeEndsAt, ward.zone)}. It is shown this once, and works once.
          </p>
          <output>{made.code}</output>
        </div>
      )}
      <form
        className={styles.bar}
        onSubmit={(event) => {
          event.preventDefault();
          if (cannot === null) make.mutate({ id: newId(), name: name.trim() }, { onSuccess: () => setName('') });
        }}
      >
        <Field label="Where it hangs" value={name} onChange={setName} autoComplete="off" maxLength={60} />
        <Button type="submit" disabledBecause={cannot}>
          Make a display
        </Button>
        {make.isError && <p role="alert">{wordsOf(make.error)}</p>}
      </form>
    </section>
  );
};

/** A display that looks is noted about every half minute. */
const LOOKS_NOW_MS = 2 * MINUTE_MS;

const Standing = ({ display, zone }: { display: WallDisplay; zone: string }) => {
  const now = useMinute();
  const at = (instant: EpochMs) => `${formatDate(instant, zone)} ${formatClock(instant, zone)}`;
  const { revokedAt, codeEndsAt, lastSeenAt, endsAt, madeBy } = display;
  const by = madeBy === null ? 'signs in with a password' : `made by ${madeBy}`;
  const seen =
    lastSeenAt === null
      ? 'never seen'
      : endsAt !== null && now - lastSeenAt < LOOKS_NOW_MS
        ? 'looks now'
        : `last seen ${at(lastSeenAt)}`;
  if (revokedAt !== null) return `ended ${at(revokedAt)}; ${by}`;
  if (codeEndsAt !== null) {
    return codeEndsAt > now ? `code not used yet, until ${at(codeEndsAt)}; ${by}` : `code was never used; ${by}`;
  }
  return `${seen}; ${endsAt === null ? 'signed out' : `until ${at(endsAt)}`}; ${by}`;
};
