import type { WardView } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain/time/instant';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { useEachMinute } from '../live/now.ts';
import type { WardNow } from '../live/ward-live.ts';
import { Button } from '../ui/button.tsx';
import { Notice } from '../ui/notice.tsx';

/** A demonstration's countdowns have all run out by then. */
const OLD_DEMONSTRATION_HOURS = 6;

/** What the tool has to say about itself above a screen: what is not heard, not watched, not new. */
export const StreamNotices = ({ ward, live }: { ward: WardView; live: WardNow<unknown> }) => {
  const { connection, unwatchedSince, otherBuild } = live;
  const seededAt = ward.demonstration?.seededAt ?? null;
  const hours = useEachMinute((now) => (seededAt === null ? 0 : Math.floor((now - seededAt) / HOUR_MS)));
  return (
    <>
      {unwatchedSince !== null && (
        <Notice tone="ink" urgent>
          <span>
            <b>Nobody watches the clock since {formatClock(unwatchedSince, ward.zone)}.</b> The server raises no alert
            for what falls due. Watch the due times yourselves.
          </span>
        </Notice>
      )}
      {connection.state === 'reconnecting' && (
        <Notice>
          <span>
            <b>Reconnecting.</b> Countdowns go on; nothing new is heard.
          </span>
        </Notice>
      )}
      {otherBuild && (
        <Notice>
          <span>
            <b>A newer version is ready.</b> Reload when you are between patients.
          </span>
          <Button tone="text" onPress={() => window.location.reload()}>
            Reload
          </Button>
        </Notice>
      )}
      {hours >= OLD_DEMONSTRATION_HOURS && (
        <Notice>
          <span>
            <b>This demonstration is {formatMinutes(hours * 60)} old,</b> so its drains are long overdue.{' '}
            <code className="mono">npm run demo:fresh</code> makes it anew.
          </span>
        </Notice>
      )}
    </>
  );
};
