import { serverClock } from '../../api/clock.ts';
import { Button } from '../../ui/button.tsx';
import { useBedside } from './bedside-context.ts';
import { act } from './model/batch.ts';

/** A stopped visit may be taken up again; offered while it is the last one. */
export const Resume = () => {
  const { state, record, sending, clock } = useBedside();
  const stopped = state.lastVisit?.stopped;
  if (state.visit || !stopped || !state.lastVisit) return null;
  const unsafe = stopped.reason === 'sterilityBroken' && stopped.contamination?.setChanged !== true;
  return (
    <Button
      tone="text"
      disabledBecause={sending ? 'being sent' : unsafe ? 'change the set, then prepare anew' : null}
      onPress={() => void record([act('resume', {}, serverClock.now())], state.lastVisit?.id ?? null)}
    >
      Resume the exchange stopped {state.lastVisit.closedAt === null ? '' : clock(state.lastVisit.closedAt)}
    </Button>
  );
};
