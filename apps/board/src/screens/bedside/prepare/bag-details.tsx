import { lotProblem } from '@slackwater/domain/solution/label/lot';
import { Field } from '../../../ui/field.tsx';
import styles from './bag-details.module.css';

type Printed = { expiresOn: string; lot: string };
type BagDetailsProps = { draft: Printed; wrong: boolean; onChange: (part: Partial<Printed>) => void };

/** What is wrong with a lot as typed; null where nothing is typed or nothing is wrong. */
export const typedLotProblem = (lot: string): string | null =>
  lot.trim() === '' ? null : (lotProblem('lot', lot.trim())?.message ?? null);

/** Expiry and lot as printed: typed where the ward wants them in the record, else read by eye. */
export const BagDetails = ({ draft, wrong, onChange }: BagDetailsProps) => (
  <div className={styles.details}>
    <Field
      label="Expiry, if it is to stand in the record"
      value={draft.expiresOn}
      onChange={(expiresOn) => onChange({ expiresOn })}
      hint="YYYY-MM, or YYYY-MM-DD"
      autoComplete="off"
      problem={wrong ? `“${draft.expiresOn}” is no date here. Write YYYY-MM or YYYY-MM-DD.` : null}
    />
    <Field
      label="Lot"
      value={draft.lot}
      onChange={(lot) => onChange({ lot })}
      autoComplete="off"
      maxLength={60}
      problem={typedLotProblem(draft.lot)}
    />
  </div>
);
