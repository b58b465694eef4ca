import type { OpenAlert } from '@slackwater/domain';
import { formatClock } from '@slackwater/domain/words/numbers';
import type { Standing } from './standing.ts';

type AlertOwnerProps = {
  alert: OpenAlert;
  standing: Exclude<Standing, 'nobody'> | null;
  names: ReadonlyMap<string, string>;
  zone: string;
  /** Until when, as well. */
  until?: boolean;
};

/** Who has it, or until when it is snoozed. */
export const AlertOwner = ({ alert, standing, names, zone, until = false }: AlertOwnerProps) => {
  if (standing === 'snoozed' && alert.snoozedUntil !== null) {
    return (
      <>
        Snoozed to <span className="nb">{formatClock(alert.snoozedUntil, zone)}</span>
      </>
    );
  }
  return (
    <>
      <b>{(alert.owner && names.get(alert.owner.accountId)) ?? 'Somebody'}</b> has it
      {until && alert.owner && <span className="nb"> to {formatClock(alert.owner.until, zone)}</span>}
    </>
  );
};
