import type { PrescriptionRevision } from '@slackwater/domain';
import { type RevisionChange, revisionChanges } from '@slackwater/domain/prescription/changes';
import { insulinAtRevision } from '@slackwater/domain/prescription/insulin-warnings';
import { prescriptionProblems } from '@slackwater/domain/prescription/problems';
import { serverClock } from '../../api/clock.ts';
import { familyName } from '../../components/names.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { act } from '../bedside/model/batch.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';
import { DayTide } from './day-tide.tsx';
import { IcodextrinCaution } from './icodextrin-caution.tsx';
import { ItemFields } from './item-fields.tsx';
import { LimitFields } from './limit-fields.tsx';
import styles from './prescription.module.css';
import { draftFrom, type ItemDraft, newItem, type RevisionDraft, readRevision } from './prescription-draft.ts';
import { ReviewFields } from './review-fields.tsx';
import { RevisionItem } from './revision-item.tsx';

type RevisionEditorProps = {
  patient: PatientContext;
  recorder: Recorder;
  inForce: PrescriptionRevision | null;
  onClose: () => void;
};

/** A new revision beside the one in force: what changes is read across, and both days stand as tide. */
export const RevisionEditor = ({ patient, recorder, inForce, onClose }: RevisionEditorProps) => {
  const { policy, patientId, session, state, clock } = patient;
  const [draft, setDraft, forget] = useDraft<RevisionDraft>(
    `prescription:${patientId}:${inForce?.id ?? 'first'}`,
    draftFrom(inForce, serverClock.now(), policy.zone),
  );
  const number = (inForce?.number ?? 0) + 1;
  const payload = readRevision(draft, policy);
  const problems = payload ? prescriptionProblems(payload, policy) : [];
  const changes: readonly RevisionChange[] = payload && inForce ? revisionChanges(inForce, payload, policy) : [];
  const changedItems = new Set(changes.flatMap((change) => (change.item === null ? [] : [change.item - 1])));
  const setItem = (index: number, item: ItemDraft) =>
    setDraft({ ...draft, items: draft.items.map((one, place) => (place === index ? item : one)) });
  const rows = Math.max(draft.items.length, inForce?.items.length ?? 0);

  const isSame = inForce !== null && changes.length === 0;
  /** Where a review is due some day, the same again is that review. */
  const isReviewed = inForce !== null && (inForce.acute || inForce.reviewBy !== null);

  const sign = async () => {
    if (payload && (await recorder.record([act('prescribed', payload, serverClock.now())], null))) {
      forget();
      onClose();
    }
  };
  const because = recorder.sending
    ? 'being sent'
    : !payload
      ? 'something is missing or cannot be read yet'
      : (problems[0]?.message ?? (isSame && !isReviewed ? 'nothing is different' : null));

  return (
    <section aria-label={`Revision ${number}`} className={styles.editor}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th />
            <th scope="col">
              <b>{inForce ? `Revision ${inForce.number}` : 'Nothing in force'}</b>
            </th>
            <th scope="col" className={styles.new}>
              <b>Revision {number}</b> new, not signed
            </th>
            <th scope="col">
              <b>What changes</b>
            </th>
          </tr>
        </thead>
        <tbody>
          {Array.from({ length: rows }, (_, index) => {
            const before = inForce?.items[index];
            const item = draft.items[index];
            const words = changes.filter((change) => change.item === index + 1);
            return (
              <tr key={item?.id ?? before?.id}>
                <th scope="row">{index + 1}</th>
                <td>{before ? <RevisionItem item={before} formulary={policy.formulary} /> : 'none'}</td>
                <td className={styles.new}>
                  {item ? (
                    <ItemFields
                      number={index + 1}
                      item={item}
                      formulary={policy.formulary}
                      settings={policy.settings}
                      changed={changedItems.has(index)}
                      onChange={(next) => setItem(index, next)}
                      onRemove={
                        draft.items.length > 1
                          ? () => setDraft({ ...draft, items: draft.items.filter((_, place) => place !== index) })
                          : null
                      }
                    />
                  ) : (
                    'taken out'
                  )}
                </td>
                <td className={styles.what}>
                  {payload?.items[index] && insulinAtRevision(before, payload.items[index])}
                  {words.length > 0
                    ? words.map((change) => <b key={change.field}>{change.words}</b>)
                    : inForce
                      ? 'as before'
                      : 'new'}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <IcodextrinCaution
        state={state}
        allergy={patient.view.patient.allergy}
        solutionIds={draft.items.map((item) => item.solutionId)}
        policy={policy}
      />
      <div className={styles.row}>
        <Button onPress={() => setDraft({ ...draft, items: [...draft.items, newItem(draft.items.at(-1))] })}>
          Another exchange
        </Button>
      </div>
      <ReviewFields draft={draft} inForce={inForce} policy={policy} onChange={setDraft} />
      <LimitFields
        draft={draft.limits}
        settings={policy.settings}
        onChange={(limits) => setDraft({ ...draft, limits })}
      />
      {changes
        .filter((change) => change.item === null)
        .map((change) => (
          <p key={change.field}>
            <b>{change.words}</b>
          </p>
        ))}
      {problems.length > 0 && <p className={styles.problem}>{problems.map((one) => one.message).join(' ')}</p>}
      {payload && (
        <>
          <h3 className="quiet">The prescribed day as tide</h3>
          {inForce && (
            <DayTide
              name={String(inForce.number)}
              items={inForce.items}
              formulary={policy.formulary}
              changed={new Set()}
            />
          )}
          <DayTide name={String(number)} items={payload.items} formulary={policy.formulary} changed={changedItems} />
        </>
      )}
      <p className="quiet">
        It acts from the next fill{state.due?.what === 'drain' ? `, after the drain at ${clock(state.due.dueAt)}` : ''}.
        The dwell inside keeps its prescription: an order changes that.
      </p>
      {payload && isSame && isReviewed && (
        <p>
          <b>Nothing is different:</b> signed, the same again is the review.
        </p>
      )}
      <div className={styles.sign}>
        <Field label="Reason" value={draft.note} onChange={(note) => setDraft({ ...draft, note })} maxLength={2000} />
        <Button tone="main" onPress={() => void sign()} disabledBecause={because}>
          Sign revision {number} as {familyName(session.account.name)}
        </Button>
        <Button onPress={onClose}>Put aside</Button>
      </div>
    </section>
  );
};
