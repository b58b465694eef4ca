import type { WardView } from '@slackwater/contract';
import { formatClock } from '@slackwater/domain/words/numbers';
import { useOutbox, useReach } from '../../outbox/use-outbox.ts';
import { Button } from '../../ui/button.tsx';
import { Notice } from '../../ui/notice.tsx';
import { tryNow } from './waiting-dialog.tsx';
import { entriesOf, entryCount } from './waiting-words.ts';

/** Above a patient's screens while the server is away, or something waits: what may be trusted, and what goes on. */
export const WaitingNotice = ({ ward }: { ward: WardView }) => {
  const now = useOutbox();
  const reach = useReach();
  const count = entriesOf(now);
  const since = formatClock(reach.heardAt, ward.zone);
  if (now.heldUp && count > 0)
    return (
      <Notice tone="ink" urgent>
        <span>
          <b>
            {entryCount(count)} {count === 1 ? 'waits' : 'wait'} on this device.
          </b>{' '}
          {now.heldUp}
        </span>
        <Button tone="text" onPress={tryNow}>
          Try now
        </Button>
      </Notice>
    );
  if (!reach.down) return null;
  if (!now.holder)
    return (
      <Notice tone="ink" urgent>
        <span>
          <b>No connection since {since}, and nothing can wait on this device.</b> Write on the sheet. What this screen
          shows is as of {since}.
        </span>
      </Notice>
    );
  return (
    <Notice tone="ink">
      <span>
        {count > 0 ? (
          <b>
            Go on. {entryCount(count)} {count === 1 ? 'waits' : 'wait'} on this device
          </b>
        ) : (
          <b>Go on. What you record waits on this device</b>
        )}{' '}
        and {count > 1 ? 'are' : 'is'} sent in order when the line is back. As of {since}, no network since: what is
        prescribed may have changed; nobody else sees this exchange yet.
      </span>
    </Notice>
  );
};
