import type { WardView } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain/time/instant';
import type { useAlertEntry } from '../../components/alert-flag/use-alert-entry.ts';
import type { Open } from './open-alerts.ts';

/** What each of the questions about an alert is given. */
export type AlertDialogProps = {
  open: Open;
  ward: WardView;
  now: EpochMs;
  entry: ReturnType<typeof useAlertEntry>;
  onClose: () => void;
};
