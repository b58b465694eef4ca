import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import type { Fact } from '../shared/facts.tsx';
import { Undo } from '../shared/undo.tsx';
import { Still } from './still.tsx';

/** Block 5, hands clean: clamp, disconnect, cap. `leftEmpty`: no fill was given, on purpose. */
export const Close = ({ leftEmpty }: { leftEmpty: boolean }) => {
  const { state, policy, clock, record, open } = useBedside();
  const fills = state.cavity.state === 'holding' ? state.cavity.fills : [];
  const last = fills.at(-1);
  const strength = solutionOf(policy.formulary, last?.solutionId ?? null)?.strength;
  const volume = fills.reduce<number | null>(
    (sum, fill) => (sum === null || fill.filledMl === null ? null : sum + fill.filledMl),
    0,
  );
  const inside: readonly Fact[] = leftEmpty
    ? [{ term: 'Fill', value: 'none given' }]
    : [
        {
          term: 'Inside',
          value: volume === null ? 'volume not known' : formatMl(volume),
          detail: strength ? `of ${strength}` : undefined,
        },
        ...(last?.endedAt ? [{ term: 'Dwell counts since', value: clock(last.endedAt) }] : []),
      ];
  const due: readonly Fact[] = state.due
    ? [
        {
          term: state.due.what === 'drain' ? 'Next drain' : state.due.what === 'fill' ? 'Next fill' : 'Review by',
          value: clock(state.due.dueAt),
        },
      ]
    : [];
  return (
    <Still
      title="Close: hands stay clean"
      words={['Clamp', 'Disconnect', 'New moist cap', 'Close the transfer set', 'Tape the catheter']}
      given={[...inside, ...due, { term: 'Cap', value: 'new, antiseptic' }]}
      pool={{
        word: 'Closed',
        onTouch: () => void record([act('close', { leftEmpty }, serverClock.now())]),
        hints: ['Anywhere in the water, an elbow will do.', 'Or say it afterwards: closed 2, 5, 10 min ago.'],
      }}
      ways={
        <>
          <Undo tone="text" />
          {!leftEmpty && (
            <Button tone="text" onPress={() => open('secondBag')}>
              Second bag
            </Button>
          )}
          <Button tone="text" onPress={() => open('stop')}>
            Stop exchange
          </Button>
        </>
      }
    />
  );
};
