import { glucoseAsked } from '@slackwater/domain/caution/glucose';
import { icodextrinCaution } from '@slackwater/domain/caution/icodextrin';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { useMinute } from '../../../live/now.ts';
import { Button } from '../../../ui/button.tsx';
import { GlucoseFields, NO_GLUCOSE, readGlucose } from '../../observations/glucose-fields.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import styles from './first.module.css';

/** With diabetes: the blood glucose before the exchange, asked for where none is recorded of late. */
export const GlucoseFirst = () => {
  const { state, policy, patientId, record, sending } = useBedside();
  const now = useMinute();
  const [draft, setDraft, forget] = useDraft(`glucose-first:${patientId}`, NO_GLUCOSE);
  if (!glucoseAsked(state, now, policy)) return null;
  const glucoseMmolPerL = readGlucose(draft);
  const specificOnly = icodextrinCaution(state, now, policy) !== null;
  const keep = async () => {
    if (glucoseMmolPerL === null || draft.meter === null) return;
    const payload = { glucoseMmolPerL, meter: draft.meter };
    if (await record([act('glucose', payload, serverClock.now())], null)) forget();
  };
  return (
    <section className={styles.first} aria-label="Blood glucose first">
      <h3>Diabetes: blood glucose before the exchange</h3>
      <p>
        {state.glucose === null
          ? 'None is recorded.'
          : `The last one is ${formatMinutes((now - state.glucose.at) / 60_000)} old.`}{' '}
        {specificOnly && <b>Icodextrin: glucose-specific meter only, others read falsely high.</b>}
      </p>
      <GlucoseFields draft={draft} onChange={setDraft} specificOnly={specificOnly} />
      <Button
        onPress={() => void keep()}
        disabledBecause={
          sending
            ? 'being sent'
            : glucoseMmolPerL === null
              ? 'the figure is missing'
              : draft.meter === null
                ? 'which meter?'
                : null
        }
      >
        Keep the blood glucose
      </Button>
    </section>
  );
};
