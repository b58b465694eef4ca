import { tooEarlyToDrain } from '@slackwater/domain/dwell/additives-inside';
import { insulinAtDrain } from '@slackwater/domain/prescription/insulin-warnings';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { Acts } from '../shared/acts.tsx';
import { Heading } from '../shared/heading.tsx';
import { Undo } from '../shared/undo.tsx';
import { Ago, useAgo } from '../shared/when.tsx';
import { EarlyDrain } from './early-drain.tsx';

/** Connected, and the drain does not run yet: after a stop was resumed, or when the start was taken back. */
export const DrainReady = () => {
  const { state, record, sending, ward } = useBedside();
  const since = state.visit?.since ?? null;
  const started = useAgo(since);
  const tooEarly = tooEarlyToDrain(state, started.at(), ward.zone);
  const insulin = insulinAtDrain(state, started.at(), ward.zone);
  return (
    <>
      <Heading title="Connected: open the drain" />
      <Ago label="Started" ago={started} notBefore={since} />
      {insulin && <p>{insulin}</p>}
      {tooEarly && <EarlyDrain tooEarly={tooEarly} at={started.at} />}
      <Acts>
        {!tooEarly && (
          <Button
            tone="main"
            onPress={() => void record([act('startDrain', {}, started.at())])}
            disabledBecause={sending ? 'being sent' : null}
          >
            Drain has started
          </Button>
        )}
        <Undo />
      </Acts>
    </>
  );
};
