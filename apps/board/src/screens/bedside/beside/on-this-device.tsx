import { formatClock } from '@slackwater/domain/words/numbers';
import { familyName } from '../../../components/names.ts';
import { tryNow } from '../../../components/waiting/waiting-dialog.tsx';
import { entriesOf, entryCount, touchWords } from '../../../components/waiting/waiting-words.ts';
import { STATE_WORDS } from '../../../outbox/states.ts';
import { useOutbox, useReach } from '../../../outbox/use-outbox.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { Beside, Source } from '../shared/facts.tsx';
import styles from './on-this-device.module.css';

/** What of this exchange is nowhere but here yet. */
export const OnThisDevice = () => {
  const { ward, patientId } = useBedside();
  const now = useOutbox();
  const reach = useReach();
  const waiting = now.waiting.filter(({ touch, attended }) => !attended && touch.patientId === patientId);
  if (waiting.length === 0) return null;
  return (
    <Beside title={`${entryCount(entriesOf({ waiting }))} on this device`}>
      <ol className={styles.list}>
        {waiting.map(({ sequence, touch, state }) => (
          <li key={sequence}>
            <span className="mono">{formatClock(touch.writtenAt, ward.zone)}</span> {touchWords(touch.drafts)}
            <small>
              {now.holder && familyName(now.holder.name)}, {STATE_WORDS[state]}
            </small>
          </li>
        ))}
      </ol>
      <Source>Last heard {formatClock(reach.heardAt, ward.zone)}. If this device fails, write on the sheet.</Source>
      <Button tone="text" onPress={tryNow}>
        Try now
      </Button>
    </Beside>
  );
};
