import type { BedsideState, WardPolicy } from '@slackwater/domain';
import { isIcodextrin } from '@slackwater/domain/caution/icodextrin';
import { icodextrinWarnings } from '@slackwater/domain/caution/prescribing';
import styles from './prescription.module.css';

type IcodextrinCautionProps = {
  state: BedsideState;
  /** The patient's allergies, as text. */
  allergy: string | null;
  solutionIds: readonly string[];
  policy: WardPolicy;
};

/** Where icodextrin is prescribed or ordered: what stands against it in this patient, with the allergies. It stops nothing. */
export const IcodextrinCaution = ({ state, allergy, solutionIds, policy }: IcodextrinCautionProps) => {
  if (!solutionIds.some((id) => isIcodextrin(id, policy))) return null;
  const warnings = icodextrinWarnings(state, solutionIds, policy);
  return (
    <p className={styles.caution} role="note">
      <b>Icodextrin.</b>{' '}
      {warnings.map((words) => (
        <b key={words}>{words} </b>
      ))}
      {allergy === null ? 'No allergy is recorded.' : `Allergy: ${allergy}.`}{' '}
      <span className="quiet">
        A caution, no stop (product information; from memory, to be confirmed by the ward’s clinical lead).
      </span>
    </p>
  );
};
