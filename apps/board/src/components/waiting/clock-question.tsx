import { formatClock } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import type { OutboxNow } from '../../outbox/outbox.ts';
import { outbox } from '../../outbox/this-device.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import styles from './waiting.module.css';
import { steppedWords } from './waiting-dialog.tsx';
import { touchWords } from './waiting-words.ts';

/** The device's clock stepped while entries waited: nobody but the person knows which times are right. */
export const ClockQuestion = ({ now, zone }: { now: OutboxNow; zone: string }) => {
  const asking = now.waiting.filter(({ state }) => state === 'asksForTime');
  const byMs = asking[0]?.steppedMs ?? 0;
  const [later, setLater] = useState(false);
  if (asking.length === 0 || later) return null;
  return (
    <Dialog title="When was it? The clock of this device moved." onClose={() => setLater(true)}>
      <p>
        While these waited, the clock of this device moved against the ward’s. They are not sent before you say which
        times are right. Times that you typed stay as you typed them.
      </p>
      <ol className={styles.list}>
        {asking.map(({ sequence, touch, steppedMs }) => (
          <li key={sequence}>
            <span className="mono">{formatClock(touch.writtenAt, zone)}</span>
            <span>
              {touchWords(touch.drafts)}
              <small>with the ward’s clock {formatClock(touch.writtenAt + (steppedMs ?? 0), zone)}</small>
            </span>
          </li>
        ))}
      </ol>
      <div className={styles.ways}>
        <Button tone="main" onPress={() => void outbox.sayTimes('withTheClock')}>
          The ward’s clock: {steppedWords(byMs)}
        </Button>
        <Button tone="firm" onPress={() => void outbox.sayTimes('asWritten')}>
          The times as written
        </Button>
        <Button onPress={() => setLater(true)}>Ask me later</Button>
      </div>
    </Dialog>
  );
};
