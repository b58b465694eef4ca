import type { Infused, Visit } from '@slackwater/domain';
import { slowFillAfterMinutes } from '@slackwater/domain/dwell/flow-verdict';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import drainStyles from '../drain/drain.module.css';
import { FlowFigure } from '../drain/flow-figure.tsx';
import { Running, useMinutesSince } from '../drain/running.tsx';
import { act } from '../model/batch.ts';
import { usualFill } from '../model/usual.ts';
import { givenInVisit } from '../model/wanted.ts';
import { comfortWords } from '../model/words.ts';
import { Acts } from '../shared/acts.tsx';
import type { Fact } from '../shared/facts.tsx';
import { Ago, Started, useAgo } from '../shared/when.tsx';
import styles from './fill.module.css';

/** The whole bag at its label, or so much of a larger one as was prescribed. */
const allIn = (labelledMl: number, prescribedMl: number): Infused =>
  labelledMl === prescribedMl ? { basis: 'wholeBag', labelledMl } : { basis: 'stated', volumeMl: prescribedMl };

/** Until the patient's own is known: 5 to 10 min with nothing in the way (common practice). */
const ORDINARY_FILL = { minutes: 8, least: 5, most: 10 };

/** What was seen before it ran; what was entered afterwards may be what nobody watched. */
const beforeWords = ({ flushMl, sealBroken, noLeak }: NonNullable<Visit['fill']>): string =>
  [
    flushMl === null ? 'flush not known' : `flushed ${formatMl(flushMl)}`,
    sealBroken === null ? 'nobody watched the seal' : 'seal broken',
    noLeak === null ? 'nobody looked for a leak' : 'no leak',
  ].join(', ');

/** Block 4: it runs in, up to the prescribed volume. */
export const Fill = () => {
  const { state, policy, clock, record, sending, open } = useBedside();
  const visit = state.visit;
  const fill = visit?.fill;
  const minutes = useMinutesSince(fill?.startedAt ?? 0);
  const ended = useAgo(fill?.startedAt ?? null);
  if (!visit || !fill) return null;

  const strength = solutionOf(policy.formulary, fill.bag.solutionId)?.strength ?? fill.bag.solutionId;
  const given = givenInVisit(state).volumeMl;
  const { bookMl } = state.inside;
  const usual = usualFill(state.lastDwells);
  const fromMl = bookMl === null || given === null ? null : bookMl + given;
  const limitMl = state.prescription?.limits.mostInsideMl ?? null;
  const slowMinutes = slowFillAfterMinutes(fill.prescribedMl, policy.settings);
  const slow = minutes >= slowMinutes;
  const because = sending ? 'being sent' : null;

  const facts: readonly Fact[] = [
    { term: 'Stop at', value: formatMl(fill.prescribedMl), detail: strength },
    {
      term: 'Inside then',
      value: fromMl === null ? 'not known' : `about ${formatMl(Math.round((fromMl + fill.prescribedMl) / 10) * 10)}`,
      detail: limitMl === null ? undefined : `of ${formatMl(limitMl)}`,
    },
    usual
      ? {
          term: 'Usual',
          value: formatMinutes(usual.minutes),
          detail: `${usual.least} to ${usual.most}, the last ${usual.of}`,
        }
      : { term: 'Usual', value: '5 to 10 min', detail: 'common practice' },
  ];

  return (
    <>
      <Running heading={slow ? 'It runs in slowly' : 'It runs in'} minutes={minutes} facts={facts} />
      <FlowFigure
        title={`Fill running for ${minutes} min`}
        minutes={minutes}
        fromMl={fromMl}
        toMl={fromMl === null ? null : fromMl + fill.prescribedMl}
        usual={usual ?? ORDINARY_FILL}
        slow={{ minutes: slowMinutes, words: 'slow' }}
        limitMl={limitMl}
      />
      <Started label="Started" entryIds={[fill.entryId]} notBefore={visit.drains.at(-1)?.endedAt ?? visit.startedAt} />
      <p className={styles.before}>
        <b>Before it:</b> {beforeWords(fill)}, {clock(fill.startedAt)}
      </p>
      <div className={drainStyles.row}>
        {visit.comfort && visit.state === 'filling' ? (
          <p className={styles.words}>Last said: {comfortWords(visit.comfort)}</p>
        ) : (
          <span />
        )}
        <Button onPress={() => open('looks')}>Pain, leak, something else</Button>
      </div>
      <Ago label="Ended" ago={ended} notBefore={fill.startedAt} />
      <Acts>
        <Button
          tone="main"
          disabledBecause={because}
          onPress={() =>
            void record([act('endFill', { infused: allIn(fill.bag.labelledMl, fill.prescribedMl) }, ended.at())])
          }
        >
          All {formatMl(fill.prescribedMl)} are in
        </Button>
        <Button onPress={() => open('stopEarly')}>Stop early</Button>
      </Acts>
    </>
  );
};
