import { removedWords } from '@slackwater/domain/balance/words';
import { guardFill } from '@slackwater/domain/cavity/guard';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { oddDrain } from '../model/odd.ts';
import { withMeasure } from '../model/predict.ts';
import { Acts } from '../shared/acts.tsx';
import { Heading } from '../shared/heading.tsx';
import { Undo } from '../shared/undo.tsx';
import { problemAt } from '../shared/use-record.ts';
import styles from './comparison.module.css';
import { Comparison } from './comparison.tsx';
import { MeasureFields } from './measure-fields.tsx';
import { type MeasureDraft, readMeasure } from './measure-form.ts';
import { useSettled } from './use-settled.ts';

/** What came out, read before the fill: compared at once with what went in and what was expected. */
export const Reading = () => {
  const { state, policy, patientId, record, sending, failure } = useBedside();
  const visit = state.visit;
  const number = visit?.drains.length ?? 1;
  const [tare, setTare] = useDraft('empty-drain-bag', '');
  const [draft, setDraft, forget] = useDraft<MeasureDraft>(`reading:${patientId}:${visit?.id ?? ''}:${number}`, {
    method: 'scale',
    gross: '',
    tare: number > 1 ? '' : tare,
    volume: '',
    flushIncluded: false,
  });
  const [asked, setAsked] = useState<number | null>(null);
  const typed = `${draft.method}${draft.gross}/${draft.tare}/${draft.volume}`;
  const settled = useSettled(typed);
  if (!visit) return null;

  const change = (part: Partial<MeasureDraft>) => {
    setAsked(null);
    setDraft({ ...draft, ...part });
  };
  const measured = readMeasure(draft, number, 'reading', policy.settings);
  const wanted = bagFor(state, policy);
  const then = measured.measure && withMeasure(state, visit.id, measured.measure, serverClock.now(), policy);
  const dwell = then?.openDwell ?? null;
  const guard = then && wanted && visit.purpose !== 'drainOnly' ? guardFill(then, wanted.fillMl, policy) : null;
  const expected =
    dwell && dwell.filledMl !== null && dwell.expectedUfMl !== null && dwell.expectedUfSdMl !== null
      ? { outMl: dwell.filledMl + dwell.expectedUfMl, sdMl: dwell.expectedUfSdMl }
      : null;
  const odd = dwell?.drainedMl != null ? oddDrain(dwell.drainedMl, expected) : null;
  const asking = asked !== null && asked === measured.volumeMl;

  const keep = async (sure: boolean) => {
    if (!measured.measure) return;
    if (odd && !sure) return setAsked(measured.volumeMl);
    if (await record([act('measure', measured.measure, serverClock.now())])) {
      if (draft.method === 'scale' && number === 1) setTare(draft.tare);
      forget();
    }
  };

  const next = visit.purpose === 'drainOnly' ? 'go to close' : 'go to fill';
  const missing = measured.volumeMl === null ? 'a reading is missing' : null;
  return (
    <>
      <Heading title="Read what came out">
        <Choice
          label="How read"
          hideLabel
          value={draft.method}
          onChange={(method) => change({ method })}
          options={[
            { value: 'scale', label: 'Scale' },
            { value: 'bagMarks', label: 'Bag marks' },
          ]}
        />
      </Heading>
      <MeasureFields
        draft={draft}
        measured={measured}
        onChange={change}
        again={number > 1}
        problem={problemAt(failure, 'grossG') ?? problemAt(failure, 'volumeMl')}
      />
      {asking && dwell ? (
        <section className={styles.asks} aria-live="polite">
          <p>
            <b>
              {formatMl(measured.volumeMl ?? 0)} from{' '}
              {dwell.filledMl === null ? 'an unknown fill' : formatMl(dwell.filledMl)}: right?
            </b>
          </p>
          <p>
            {dwell.drainMinusFillMl !== null && `That would be ${removedWords(dwell.drainMinusFillMl)}. `}
            {odd?.because === 'digit'
              ? 'One digit too many or too few?'
              : 'Two bags in one, one digit too many, or still running?'}
          </p>
        </section>
      ) : (
        settled && then && dwell && <Comparison dwell={dwell} then={then} guard={guard} />
      )}
      {asking ? (
        <Acts>
          <Button tone="main" onPress={() => setAsked(null)}>
            Change it
          </Button>
          <Button tone="firm" onPress={() => void keep(true)} disabledBecause={sending ? 'being sent' : null}>
            Yes, {formatMl(measured.volumeMl ?? 0)}
          </Button>
        </Acts>
      ) : (
        <Acts>
          <Button tone="main" onPress={() => void keep(false)} disabledBecause={sending ? 'being sent' : missing}>
            {measured.volumeMl === null ? `Keep, ${next}` : `Keep ${formatMl(measured.volumeMl)}, ${next}`}
          </Button>
          <DrainAgain />
          <Undo />
        </Acts>
      )}
    </>
  );
};

/** Another drain of the same dwell: what it brings is added to what came before. */
export const DrainAgain = ({ tone = 'side' }: { tone?: 'main' | 'side' }) => {
  const { record, sending } = useBedside();
  return (
    <Button
      tone={tone}
      disabledBecause={sending ? 'being sent' : null}
      onPress={() => void record([act('startDrain', {}, serverClock.now())])}
    >
      Drain again
      {tone === 'main' && (
        <>
          <br />
          <small>turn, sit up, look for kinks and closed clamps</small>
        </>
      )}
    </Button>
  );
};
