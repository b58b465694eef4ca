import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { Acts } from '../shared/acts.tsx';
import { Heading } from '../shared/heading.tsx';
import { Undo } from '../shared/undo.tsx';
import { Ago, useAgo } from '../shared/when.tsx';

/** Connected, and the drain does not run yet: after a stop was resumed, or when the start was taken back. */
export const DrainReady = () => {
  const { state, record, sending } = useBedside();
  const since = state.visit?.since ?? null;
  const started = useAgo(since);
  return (
    <>
      <Heading title="Connected: open the drain" />
      <Ago label="Started" ago={started} notBefore={since} />
      <Acts>
        <Button
          tone="main"
          onPress={() => void record([act('startDrain', {}, started.at())])}
          disabledBecause={sending ? 'being sent' : null}
        >
          Drain has started
        </Button>
        <Undo />
      </Acts>
    </>
  );
};
