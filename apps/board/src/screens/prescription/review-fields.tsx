import type { PrescriptionRevision, WardPolicy } from '@slackwater/domain';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { Tick } from '../bedside/shared/tick.tsx';
import styles from './prescription.module.css';
import type { RevisionDraft } from './prescription-draft.ts';

type ReviewFieldsProps = {
  draft: RevisionDraft;
  inForce: PrescriptionRevision | null;
  policy: WardPolicy;
  onChange: (draft: RevisionDraft) => void;
};

/** When the physician looks at it again: acute ones daily, and by a time where one is set. */
export const ReviewFields = ({ draft, inForce, policy, onChange }: ReviewFieldsProps) => {
  const before = inForce?.reviewBy ?? null;
  return (
    <section className={styles.limits} aria-labelledby="review">
      <h3 id="review">
        Review <span className="quiet">left empty, no time is set</span>
      </h3>
      <div className={styles.row}>
        <InstantField
          label="Review by"
          typed={draft.reviewBy}
          onTyped={(reviewBy) => onChange({ ...draft, reviewBy })}
          zone={policy.zone}
        />
        <Tick checked={draft.acute} onChange={(acute) => onChange({ ...draft, acute })}>
          Acute: reviewed every {policy.settings.acuteReviewHours} h
        </Tick>
      </div>
      {inForce && before !== null && (
        <p className="quiet">
          Revision {inForce.number} is to be reviewed by {formatDate(before, policy.zone)}{' '}
          {formatClock(before, policy.zone)}.
        </p>
      )}
    </section>
  );
};
