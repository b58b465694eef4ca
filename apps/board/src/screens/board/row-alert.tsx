import type { OpenAlert } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { formatClock } from '@slackwater/domain/words/numbers';
import { AlertFlag } from '../../components/alert-flag/alert-flag.tsx';
import { useTakeAlert } from '../../components/alert-flag/use-take-alert.ts';
import styles from './row-alert.module.css';

type RowAlertProps = {
  alert: OpenAlert;
  owner: string | null;
  more: number;
  wardId: string;
  patientId: string;
  names: ReadonlyMap<string, string>;
  zone: string;
  mayTake: boolean;
};

/** The alert of a row and who has it; one press takes it while nobody does. */
export const RowAlert = ({ alert, owner, more, wardId, patientId, names, zone, mayTake }: RowAlertProps) => {
  const take = useTakeAlert(wardId);
  return (
    <AlertFlag
      rank={alert.rank}
      kind={alert.kind}
      more={more}
      nobodySince={nobodySince(alert)}
      owner={
        owner === null ? null : (
          <>
            <b>{names.get(owner) ?? 'Somebody'}</b> has it{alert.owner && ` to ${formatClock(alert.owner.until, zone)}`}
          </>
        )
      }
    >
      {owner === null && mayTake && (
        <button
          type="button"
          className={styles.take}
          disabled={take.isPending}
          onClick={() => take.mutate({ patientId, alertId: alert.id })}
        >
          {take.isError ? 'Not sent: again' : take.isPending ? 'Sending' : 'I have it'}
        </button>
      )}
    </AlertFlag>
  );
};

const nobodySince = (alert: OpenAlert): EpochMs =>
  Math.max(alert.raisedAt, alert.owner?.until ?? 0, alert.snoozedUntil ?? 0);
