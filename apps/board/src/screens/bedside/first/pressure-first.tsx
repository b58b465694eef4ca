import type { Payloads } from '@slackwater/domain';
import type { PressureQuestion } from '@slackwater/domain/exchange/pressure-first';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import styles from './first.module.css';

type Answer = Payloads['calledFirst'];

type PressureFirstProps = { question: PressureQuestion; onAnswer: (answer: Answer) => void };

const PRESSURE = { least: 20, most: 280, unit: 'mmHg' };

/** Before a strong bag: measure now, or call and say what was said; or go on by right of role, with a reason. */
export const PressureFirst = ({ question, onAnswer }: PressureFirstProps) => {
  const { patientId, record, sending, mayDo } = useBedside();
  const [draft, setDraft, forget] = useDraft(`pressure-first:${patientId}`, {
    systolic: '',
    diastolic: '',
    whom: '',
    words: '',
  });
  const systolicMmHg = readDigits(draft.systolic, PRESSURE).value;
  const diastolicMmHg = readDigits(draft.diastolic, PRESSURE).value;
  const turned = systolicMmHg !== null && diastolicMmHg !== null && diastolicMmHg >= systolicMmHg;
  const words = draft.words.trim();
  const whom = draft.whom.trim();
  const measured = async () => {
    if (systolicMmHg === null || diastolicMmHg === null) return;
    const payload = { systolicMmHg, diastolicMmHg, position: null };
    if (await record([act('bloodPressure', payload, serverClock.now())], null)) forget();
  };
  const answer = (by: 'told' | 'override') => {
    onAnswer({ about: question.about, by, whom: by === 'told' ? whom : null, words });
    forget();
  };
  return (
    <section className={styles.first} aria-label="Call first">
      <h3>A strong bag: call first</h3>
      <p>{question.why}</p>
      <div className={styles.row}>
        <NumberField
          label="Systolic now"
          typed={draft.systolic}
          onTyped={(systolic) => setDraft({ ...draft, systolic })}
          {...PRESSURE}
        />
        <NumberField
          label="Diastolic now"
          typed={draft.diastolic}
          onTyped={(diastolic) => setDraft({ ...draft, diastolic })}
          {...PRESSURE}
        />
        <Button
          onPress={() => void measured()}
          disabledBecause={
            sending
              ? 'being sent'
              : systolicMmHg === null || diastolicMmHg === null
                ? 'two figures'
                : turned
                  ? 'the lower figure goes second'
                  : null
          }
        >
          Keep this blood pressure
        </Button>
      </div>
      <div className={styles.row}>
        <Field
          label="Who was called"
          value={draft.whom}
          onChange={(next) => setDraft({ ...draft, whom: next })}
          maxLength={120}
        />
        <Field
          label="What was said, or why"
          value={draft.words}
          onChange={(next) => setDraft({ ...draft, words: next })}
          maxLength={500}
        />
      </div>
      <div className={styles.row}>
        <Button
          onPress={() => answer('told')}
          disabledBecause={
            !mayDo('recordExchange')
              ? 'not in your role'
              : whom === ''
                ? 'who was called?'
                : words === ''
                  ? 'what was said?'
                  : null
          }
        >
          Called: go on
        </Button>
        {mayDo('overrideGuard') && (
          <Button onPress={() => answer('override')} disabledBecause={words === '' ? 'say why' : null}>
            Go on without calling
          </Button>
        )}
      </div>
    </section>
  );
};
