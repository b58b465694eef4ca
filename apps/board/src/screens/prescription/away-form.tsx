import { stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { serverClock } from '../../api/clock.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Field } from '../../ui/field.tsx';
import { act } from '../bedside/model/batch.ts';
import { FormDialog } from '../bedside/shared/form-dialog.tsx';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { typedFrom } from '../bedside/shared/typed-instant.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';
import { orderWords } from '../patient-record/words/entry-words.ts';
import { type AwayDraft, awayProblems, missingOfAway, noAway, readAway } from './away-draft.ts';
import { orderWarnings } from './order-warnings.ts';
import { missingOfTelephone, TelephoneFields, telephoneOf } from './telephone-fields.tsx';

type AwayFormProps = { patient: PatientContext; recorder: Recorder; onClose: () => void };

/**
 * Theatre or imaging in one form: drained before, away, empty until back. One touch gives the order; where the patient
 * leaves at once with an empty cavity, the same batch says so.
 */
export const AwayForm = ({ patient, recorder, onClose }: AwayFormProps) => {
  const { state, policy, patientId, ward, mayDo, clock } = patient;
  const byTelephone = !mayDo('prescribe');
  const isEmpty = state.cavity.state === 'empty';
  const [draft, setDraft, forget] = useDraft<AwayDraft>(
    `away:${patientId}`,
    noAway(typedFrom(serverClock.now(), ward.zone).date),
  );
  const change = (part: Partial<AwayDraft>) => setDraft({ ...draft, ...part });
  const context = { now: serverClock.now(), zone: ward.zone, isEmpty };
  const content = readAway(draft, context);
  const problems = content ? awayProblems(content, context.now, policy, clock) : {};
  const leavesNow = isEmpty && content?.away !== undefined && content.away.leavesAt === context.now;
  const missing = [...missingOfAway(draft, context), ...(byTelephone ? missingOfTelephone(draft) : [])];
  const wrong = Object.values(problems)[0] ?? null;
  const words = content && orderWords(content, { clock, formulary: policy.formulary });

  const give = async () => {
    const now = serverClock.now();
    const order = readAway(draft, { ...context, now });
    if (!order?.away) return;
    const { where, backAt, leavesAt } = order.away;
    const payload = { content: order, note: null, telephone: byTelephone ? telephoneOf(draft) : null };
    const leaving = isEmpty && leavesAt === now ? [act('leftWard', { where, backAbout: backAt }, now)] : [];
    if (await recorder.record([act('ordered', payload, now), ...leaving], null)) {
      forget();
      onClose();
    }
  };

  return (
    <FormDialog
      title={byTelephone ? 'Theatre or imaging, by telephone' : 'Theatre or imaging'}
      action={leavesNow ? 'Give the order: off the ward now' : 'Give the order'}
      disabledBecause={recorder.sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : wrong}
      onAct={() => void give()}
      onClose={onClose}
    >
      <Field
        label="Where to"
        value={draft.where}
        onChange={(where) => change({ where })}
        maxLength={80}
        hint="theatre, imaging, …"
      />
      <Field label="What for" value={draft.why} onChange={(why) => change({ why })} maxLength={200} />
      {isEmpty ? (
        <p className="quiet">The cavity is empty since {clock(state.cavity.since)}: nothing to drain before.</p>
      ) : (
        <InstantField
          label="Drain by"
          typed={draft.drainBy}
          onTyped={(drainBy) => change({ drainBy })}
          zone={ward.zone}
          wrong={problems.drainBy}
        />
      )}
      <InstantField
        label="Leaves at"
        typed={draft.leavesAt}
        onTyped={(leavesAt) => change({ leavesAt })}
        zone={ward.zone}
        wrong={problems.leavesAt}
      />
      <InstantField
        label="Expected back at"
        typed={draft.backAt}
        onTyped={(backAt) => change({ backAt })}
        zone={ward.zone}
        wrong={problems.backAt}
      />
      {content && wrong === null && (
        <p>
          The board says: <b>{stayEmptyWords(asShown(content), state.cavity, clock)}</b>
        </p>
      )}
      {content &&
        orderWarnings(content, patient).map((warning) => (
          <p key={warning}>
            <b>{warning}</b>
          </p>
        ))}
      {byTelephone && (
        <TelephoneFields
          draft={draft}
          onChange={change}
          words={words}
          countersignHours={policy.settings.countersignHours}
        />
      )}
    </FormDialog>
  );
};

const asShown = ({ drainBy, emptyUntil, away }: NonNullable<ReturnType<typeof readAway>>) => ({
  orderId: '',
  drainBy,
  until: emptyUntil,
  away: away ?? null,
});
