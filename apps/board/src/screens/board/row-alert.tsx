import type { OpenAlert } from '@slackwater/domain';
import { AlertFlag } from '../../components/alert-flag/alert-flag.tsx';
import { AlertOwner } from '../../components/alert-flag/alert-owner.tsx';
import { rowTitle } from '../../components/alert-flag/row-title.ts';
import { nobodySince, type Standing } from '../../components/alert-flag/standing.ts';
import { useAlertEntry } from '../../components/alert-flag/use-alert-entry.ts';
import styles from './row-alert.module.css';

type RowAlertProps = {
  alert: OpenAlert;
  standing: Standing;
  more: number;
  wardId: string;
  patientId: string;
  names: ReadonlyMap<string, string>;
  zone: string;
  mayTake: boolean;
  stale: boolean;
};

/** The alert of a row and who has it; one press takes it while nobody does. */
export const RowAlert = ({ alert, standing, more, wardId, patientId, names, zone, mayTake, stale }: RowAlertProps) => {
  const entry = useAlertEntry(wardId, patientId, alert.id);
  return (
    <AlertFlag
      rank={alert.rank}
      title={rowTitle(alert.kind)}
      more={more}
      stale={stale}
      nobodySince={nobodySince(alert)}
      owner={
        standing === 'nobody' ? null : <AlertOwner alert={alert} standing={standing} names={names} zone={zone} until />
      }
    >
      {standing === 'nobody' && mayTake && !stale && (
        <button
          type="button"
          className={styles.take}
          disabled={entry.isPending}
          onClick={() => entry.mutate({ act: 'acknowledge' })}
        >
          {entry.isError ? 'Not sent: again' : entry.isPending ? 'Sending' : 'Take it'}
        </button>
      )}
    </AlertFlag>
  );
};
