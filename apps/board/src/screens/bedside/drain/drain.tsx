import { formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { expectedBack } from '../model/expected-back.ts';
import { bandWords, expectedWords } from '../model/expected-out.ts';
import { usualDrain } from '../model/usual.ts';
import { appearanceWords, comfortWords } from '../model/words.ts';
import { Acts } from '../shared/acts.tsx';
import type { Fact } from '../shared/facts.tsx';
import { By } from '../shared/heading.tsx';
import { useLearned } from '../shared/use-learned.ts';
import { Ago, Started, useAgo } from '../shared/when.tsx';
import { asUsual } from './as-usual.ts';
import styles from './drain.module.css';
import { FlowFigure } from './flow-figure.tsx';
import { Running, useMinutesSince } from './running.tsx';
import { SlowDrain } from './slow-drain.tsx';

/** Until the patient's own is known: 10 to 20 min in adults (teaching texts). */
const ORDINARY_DRAIN = { minutes: 15, least: 10, most: 20 };

/** Block 3: it drains. Counted from the touch, looked at once, ended in one touch. */
export const Drain = () => {
  const { state, policy, patientId, clock, record, sending, entries, open } = useBedside();
  const learned = useLearned(patientId);
  const visit = state.visit;
  const drain = visit?.drains.at(-1);
  const minutes = useMinutesSince(drain?.startedAt ?? 0);
  const stopped = useAgo(drain?.startedAt ?? null);
  if (!visit || !drain) return null;

  const number = visit.drains.length;
  const back = expectedBack(state, policy, drain.startedAt, learned);
  const usual = usualDrain(state.lastDwells);
  const slow = minutes >= policy.settings.slowDrainMinutes;
  const looked = drain.appearance.length > 0;
  const outMl = back?.out?.outMl ?? null;
  const connectId = entries.find((entry) => entry.kind === 'connect' && entry.visitId === visit.id)?.id;
  const startIds = number === 1 && connectId ? [connectId, drain.entryId] : [drain.entryId];

  const facts: readonly Fact[] = [
    usual
      ? {
          term: 'Usual',
          value: formatMinutes(usual.minutes),
          detail: `${usual.least} to ${usual.most}, the last ${usual.of}`,
        }
      : { term: 'Usual', value: '10 to 20 min', detail: 'adults, teaching texts' },
    back?.out
      ? { term: 'Expected', value: `about ${expectedWords(back.out)}`, detail: bandWords(back.out) }
      : { term: 'Expected', value: 'not known' },
    back
      ? {
          term: 'Went in',
          value: formatMl(back.inMl),
          detail: `${back.strength ?? 'strength not known'}, ${clock(back.filledAt)}`,
        }
      : { term: 'Went in', value: 'not known' },
  ];

  const end = (flow: 'stopped' | 'notStopped', withLooks: boolean) => {
    const at = stopped.at();
    void record([...(withLooks ? asUsual(visit, at) : []), act('endDrain', { flow }, at)]);
  };
  const asUsualWords = visit.comfort
    ? `Stopped: clear; ${comfortWords(visit.comfort)}`
    : slow
      ? 'Stopped: clear, comfortable'
      : 'Stopped: clear, comfortable, as usual';
  const because = sending ? 'being sent' : null;

  return (
    <>
      <Running heading={slow ? 'It drains slowly' : 'It drains'} minutes={minutes} facts={facts} />
      <FlowFigure
        flat={slow}
        title={`Drain running for ${minutes} min${usual ? `, usually ${usual.minutes} min` : ''}`}
        minutes={minutes}
        fromMl={outMl === null ? null : outMl + policy.settings.residualMl}
        toMl={policy.settings.residualMl}
        usual={usual ?? ORDINARY_DRAIN}
        slow={{
          minutes: policy.settings.slowDrainMinutes,
          words: `noted over ${policy.settings.slowDrainMinutes} min`,
        }}
      />
      {slow ? (
        <SlowDrain drain={number} />
      ) : (
        <Started label="Started" entryIds={startIds} notBefore={number === 1 ? visit.startedAt : null} />
      )}
      {!slow && <By>Appearance and comfort</By>}
      {looked ? (
        <p className={styles.said}>
          <b>{appearanceWords(drain.appearance)}</b>
          {visit.comfort ? `, ${comfortWords(visit.comfort)}` : ''}
          <Button tone="text" onPress={() => open('looks')}>
            Change
          </Button>
        </p>
      ) : slow ? null : (
        <div className={styles.row}>
          <Button onPress={() => void record(asUsual(visit, stopped.at()))} disabledBecause={because}>
            Clear, comfortable, as usual
          </Button>
          <Button onPress={() => open('looks')}>Something else</Button>
        </div>
      )}
      <Ago label="Stopped" ago={stopped} notBefore={drain.startedAt} />
      <Acts>
        <Button tone="main" onPress={() => end('stopped', !looked)} disabledBecause={because}>
          {looked ? 'Drain has stopped' : asUsualWords}
        </Button>
        {!looked &&
          (slow ? (
            <Button onPress={() => open('looks')}>Something else</Button>
          ) : (
            <Button onPress={() => end('stopped', false)} disabledBecause={because}>
              Stopped
              <br />
              <small>look later</small>
            </Button>
          ))}
        <Button onPress={() => end('notStopped', false)} disabledBecause={because}>
          End it
          <br />
          <small>still running</small>
        </Button>
      </Acts>
    </>
  );
};
