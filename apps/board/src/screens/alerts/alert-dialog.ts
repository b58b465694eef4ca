import type { WardView } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain/time/instant';
import type { useAlertEntry } from '../../components/alert-flag/use-alert-entry.ts';

/** What each of the questions about an alert is given. */
export type AlertDialogProps = {
  ward: WardView;
  now: EpochMs;
  entry: ReturnType<typeof useAlertEntry>;
  onClose: () => void;
};
