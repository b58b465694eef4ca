import { insulinAtSkip } from '@slackwater/domain/prescription/insulin-warnings';
import { HOUR_MS } from '@slackwater/domain/time/instant';
import { formatDate } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { serverClock } from '../../api/clock.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { act } from '../bedside/model/batch.ts';
import { FormDialog } from '../bedside/shared/form-dialog.tsx';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { readInstant, typedFrom } from '../bedside/shared/typed-instant.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';
import styles from './prescription.module.css';

type HoldProps = { patient: PatientContext; recorder: Recorder };

/** Hold and discontinue stop further fills, never the drain of what is inside. */
export const Hold = ({ patient, recorder }: HoldProps) => {
  const { state, clock, ward, policy, mayDo, patientId } = patient;
  const insulin = insulinAtSkip(state, policy);
  const [asking, setAsking] = useState<'hold' | 'discontinue' | null>(null);
  const [draft, setDraft, forget] = useDraft(`hold:${patientId}`, {
    reason: '',
    reviewBy: typedFrom(serverClock.now() + 12 * HOUR_MS, ward.zone),
  });
  const reviewBy = readInstant(draft.reviewBy, ward.zone).at;
  const because = mayDo('prescribe') ? null : 'the physician';
  const done = () => {
    forget();
    setAsking(null);
  };
  const say = async () => {
    const at = serverClock.now();
    const reason = draft.reason.trim();
    const made =
      asking === 'discontinue'
        ? act('discontinued', { reason }, at)
        : act('held', { reason, reviewBy: reviewBy ?? at }, at);
    if (await recorder.record([made], null)) done();
  };
  return (
    <section aria-labelledby="hold">
      <h2 id="hold">{state.hold ? 'On hold' : state.discontinuedAt !== null ? 'Discontinued' : 'Fills go on'}</h2>
      {state.hold && (
        <p>
          <b>{state.hold.reason}</b>, since {clock(state.hold.since)}; review by {clock(state.hold.reviewBy)},{' '}
          {formatDate(state.hold.reviewBy, ward.zone)}. What is inside is still drained when it is due.
        </p>
      )}
      <div className={styles.row}>
        {state.hold ? (
          <Button
            onPress={() => void recorder.record([act('holdLifted', {}, serverClock.now())], null)}
            disabledBecause={because}
          >
            Lift the hold
          </Button>
        ) : (
          <Button onPress={() => setAsking('hold')} disabledBecause={because}>
            Hold further fills
          </Button>
        )}
        {state.discontinuedAt === null && state.prescription && (
          <Button onPress={() => setAsking('discontinue')} disabledBecause={because}>
            Discontinue
          </Button>
        )}
      </div>
      {asking && (
        <FormDialog
          title={asking === 'hold' ? 'Hold further fills?' : 'Discontinue the prescription?'}
          action={asking === 'hold' ? 'Hold' : 'Discontinue'}
          disabledBecause={
            recorder.sending
              ? 'being sent'
              : draft.reason.trim() === ''
                ? 'the reason is missing'
                : asking === 'hold' && reviewBy === null
                  ? 'the review time is missing'
                  : null
          }
          onAct={() => void say()}
          onClose={() => setAsking(null)}
        >
          <p>What is inside is still drained when it is due.</p>
          {insulin && (
            <p>
              <b>{insulin}</b>
            </p>
          )}
          <Field
            label="Reason"
            value={draft.reason}
            onChange={(reason) => setDraft({ ...draft, reason })}
            maxLength={500}
          />
          {asking === 'hold' && (
            <InstantField
              label="Review by"
              typed={draft.reviewBy}
              onTyped={(typed) => setDraft({ ...draft, reviewBy: typed })}
              zone={ward.zone}
            />
          )}
        </FormDialog>
      )}
    </section>
  );
};
