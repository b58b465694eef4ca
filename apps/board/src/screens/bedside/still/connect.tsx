import { tooEarlyToDrain } from '@slackwater/domain/dwell/additives-inside';
import { fillAgainst, stayEmptyOf, stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { expectedBack } from '../model/expected-back.ts';
import { expectedWords } from '../model/expected-out.ts';
import { usualDrain } from '../model/usual.ts';
import type { Fact } from '../shared/facts.tsx';
import { Undo } from '../shared/undo.tsx';
import { useLearned } from '../shared/use-learned.ts';
import { prescribedFacts } from './prescribed-facts.ts';
import { Still } from './still.tsx';

/** Block 2, hands clean: the touch that says "connected" starts the drain as well. */
export const Connect = () => {
  const { state, policy, ward, patientId, clock, record, open } = useBedside();
  const learned = useLearned(patientId);
  const visit = state.visit;
  if (!visit) return null;
  const now = serverClock.now();
  const back = expectedBack(state, policy, now, learned);
  const usual = usualDrain(state.lastDwells);
  const drains = visit.purpose !== 'fillOnly';
  const strength = solutionOf(policy.formulary, visit.bag?.solutionId ?? null)?.strength;

  const drainFirst: Fact | null = drains
    ? {
        term: 'Drain first',
        value: back?.out
          ? `about ${expectedWords(back.out)}`
          : back
            ? `${formatMl(back.inMl)} went in`
            : 'volume not known',
        detail: usual ? `usually ${formatMinutes(usual.minutes)}` : undefined,
      }
    : null;

  // Before anything is opened: the order to be empty, in the hours for which it speaks of this fill and in those ahead.
  const stayEmpty = visit.purpose === 'drainOnly' ? null : stayEmptyOf(state);
  const against = stayEmpty && fillAgainst(state, visit.orderId, now, policy.settings);
  const isStopped = against !== null && visit.despiteOrderId !== against.orderId;
  const ordered: Fact | null = stayEmpty
    ? {
        term: 'By order',
        value: stayEmptyWords(stayEmpty, against ? { state: 'empty' } : state.cavity, clock),
        detail: against && !isStopped ? 'going on all the same' : undefined,
      }
    : null;

  const tooEarly = drains ? tooEarlyToDrain(state, now, ward.zone) : null;

  const connected = () => {
    const at = serverClock.now();
    void record([
      act('connect', {}, at),
      ...(drains && !tooEarlyToDrain(state, at, ward.zone) ? [act('startDrain', {}, at)] : []),
    ]);
  };

  return (
    <Still
      title="Connect: hands stay clean"
      words={['Masks, everyone', 'Hands', 'Connect']}
      given={[
        ...(ordered ? [ordered] : []),
        ...prescribedFacts(state, policy, strength),
        ...(drainFirst ? [drainFirst] : []),
      ]}
      pool={{
        word: 'Connected',
        onTouch: connected,
        hints: isStopped
          ? [
              'Ordered to stay empty: no fill follows. Open no bag.',
              ...(drains ? ['The drain counts from this touch.'] : []),
            ]
          : tooEarly
            ? [tooEarly, 'The drain does not start with this touch: it asks first.']
            : drains
              ? [
                  'The drain counts from this touch. Anywhere in the water, an elbow will do.',
                  'Or say it afterwards: started 2, 5, 10 min ago.',
                ]
              : ['Anywhere in the water, an elbow will do.'],
      }}
      ways={
        <>
          <Undo tone="text" />
          <Button tone="text" onPress={() => open('stop')}>
            Stop exchange
          </Button>
        </>
      }
    />
  );
};
