import type { MadeWallDisplay, WallDisplay, WardView } from '@slackwater/contract';
import { formatClock } from '@slackwater/domain/words/numbers';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { newId } from '../../api/ids.ts';
import { wordsOf } from '../../api/problems.ts';
import { useMinute } from '../../live/now.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { displayStanding } from './display-standing.ts';
import styles from './wall-displays.module.css';
import { useWallDisplayChanges, wallDisplaysQuery } from './wall-displays-query.ts';

/** The devices that show this ward on its walls: made here, opened there by a code, renewed or ended here. */
export const WallDisplays = ({ ward }: { ward: WardView }) => {
  const { data, error } = useQuery(wallDisplaysQuery(ward.id));
  const { make, renew, revoke } = useWallDisplayChanges(ward.id);
  const [name, setName] = useState('');
  const [code, setCode] = useState<(MadeWallDisplay & { name: string }) | null>(null);
  const cannot = name.trim() === '' ? 'Write where it hangs' : make.isPending ? 'Sending' : null;
  return (
    <section className={styles.section} aria-label="Wall displays">
      <h2>Wall displays</h2>
      <p>
        Each shows this ward without names, changes nothing, and ends by itself 90 days after it was opened. Renewed, it
        gets a new code, to be typed on the device, and 90 days more.
      </p>
      {error && <p role="alert">{wordsOf(error)}</p>}
      <ul className={styles.list}>
        {data?.displays.map((display) => (
          <Row
            key={display.id}
            display={display}
            zone={ward.zone}
            isSending={renew.isPending || revoke.isPending}
            onRenew={() => renew.mutate(display.id, { onSuccess: (made) => setCode({ ...made, name: display.name }) })}
            onEnd={() => revoke.mutate(display.id, { onSuccess: () => setCode(null) })}
          />
        ))}
      </ul>
      {revoke.isError && <p role="alert">{wordsOf(revoke.error)}</p>}
      {renew.isError && <p role="alert">{wordsOf(renew.error)}</p>}
      {code && (
        <div className={styles.code} role="status">
          <p>
            For <b>{code.name}</b>. Type on the device at <b>{window.location.origin + paths.openWall()}</b> before{' '}
            {formatClock(code.codeEndsAt, ward.zone)}. It is shown this once, and works once; a display that shows the
            ward goes on until then.
          </p>
          <output>{code.code}</output>
        </div>
      )}
      <form
        className={styles.bar}
        onSubmit={(event) => {
          event.preventDefault();
          if (cannot !== null) return;
          const display = { id: newId(), name: name.trim() };
          const onSuccess = (made: MadeWallDisplay) => {
            setCode({ ...made, name: display.name });
            setName('');
          };
          make.mutate(display, { onSuccess });
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

type RowProps = {
  display: WallDisplay;
  zone: string;
  isSending: boolean;
  onRenew: () => void;
  onEnd: () => void;
};

const Row = ({ display, zone, isSending, onRenew, onEnd }: RowProps) => {
  const { warning, words } = displayStanding(display, useMinute(), zone);
  const isInUse = display.revokedAt === null;
  const why = isSending ? 'Sending' : null;
  return (
    <li>
      <b>{display.name}</b>
      <span>
        {warning && <strong>{warning} </strong>}
        {words}
      </span>
      {isInUse && display.madeBy !== null && (
        <Button aria-label={`Renew: ${display.name}`} disabledBecause={why} onPress={onRenew}>
          Renew
        </Button>
      )}
      {isInUse && (
        <Button aria-label={`End it now: ${display.name}`} disabledBecause={why} onPress={onEnd}>
          End it now
        </Button>
      )}
    </li>
  );
};
