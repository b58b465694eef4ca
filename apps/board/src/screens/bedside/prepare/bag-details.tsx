import { Field } from '../../../ui/field.tsx';
import styles from './bag-details.module.css';
import type { PrepareDraft } from './prepare-draft.ts';

type BagDetailsProps = { draft: PrepareDraft; wrong: boolean; onChange: (part: Partial<PrepareDraft>) => void };

/** Expiry and lot as printed: typed where the ward wants them in the record, else read by eye. */
export const BagDetails = ({ draft, wrong, onChange }: BagDetailsProps) => (
  <div className={styles.details}>
    <Field
      label="Expiry, if it is to stand in the record"
      value={draft.expiresOn}
      onChange={(expiresOn) => onChange({ expiresOn })}
      placeholder="2027-08"
      inputMode="numeric"
      autoComplete="off"
      problem={wrong ? `“${draft.expiresOn}” is no date here. Write 2027-08 or 2027-08-31.` : null}
    />
    <Field label="Lot" value={draft.lot} onChange={(lot) => onChange({ lot })} autoComplete="off" maxLength={60} />
  </div>
);
