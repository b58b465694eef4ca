import type { WardView } from '@slackwater/contract';
import { type EpochMs, plusMinutes } from '@slackwater/domain/time/instant';
import { formatClock } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { wordsOf } from '../../api/problems.ts';
import { useAlertEntry } from '../../components/alert-flag/use-alert-entry.ts';
import { Button } from '../../ui/button.tsx';
import styles from './alert-hands.module.css';
import { ClearDialog } from './clear-dialog.tsx';
import { HandOnDialog } from './hand-on-dialog.tsx';
import type { Open } from './open-alerts.ts';
import { SnoozeDialog } from './snooze-dialog.tsx';

type AlertHandsProps = { open: Open; ward: WardView; now: EpochMs; mayNot: string | null };

/** What a person may do with an alert: take it, hand it on, snooze it with an end, clear it with a reason. */
export const AlertHands = ({ open, ward, now, mayNot }: AlertHandsProps) => {
  const { alert, row, standing } = open;
  const entry = useAlertEntry(ward.id, row.patient.id, alert.id);
  const [asking, setAsking] = useState<'handOn' | 'snooze' | 'clear' | null>(null);
  const most = ward.policy.settings.acknowledgeMostMinutes;
  const to = formatClock(plusMinutes(now, most), ward.zone);
  const dialog = { open, ward, now, entry, onClose: () => setAsking(null) };
  if (mayNot) return <p className={styles.mayNot}>{mayNot}</p>;
  return (
    <div className={styles.hands}>
      {standing === 'held' ? (
        <Button
          className={styles.wide}
          disabledBecause={busy(entry)}
          onPress={() => entry.mutate({ act: 'acknowledge' })}
        >
          I have it to {to}
        </Button>
      ) : (
        <Button
          tone={alert.rank === 'high' ? 'main' : 'firm'}
          className={styles.take}
          disabledBecause={busy(entry)}
          onPress={() => entry.mutate({ act: 'acknowledge' })}
        >
          Acknowledge to {to}
        </Button>
      )}
      <Button onPress={() => setAsking('handOn')}>Hand on</Button>
      <Button onPress={() => setAsking('snooze')}>Snooze</Button>
      <Button onPress={() => setAsking('clear')}>Clear</Button>
      {entry.isError && (
        <p className={styles.problem} role="alert">
          {wordsOf(entry.error)}
        </p>
      )}
      {asking === 'handOn' && <HandOnDialog {...dialog} />}
      {asking === 'snooze' && <SnoozeDialog {...dialog} />}
      {asking === 'clear' && <ClearDialog {...dialog} />}
    </div>
  );
};

const busy = (entry: { isPending: boolean }): string | null => (entry.isPending ? 'Sending' : null);
