import type { PatientIdentity } from '@slackwater/domain';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import type { ReactNode } from 'react';
import { yearsOld } from '../ui/years-old.ts';
import styles from './patient-banner.module.css';

type PatientBannerProps = {
  patient: PatientIdentity;
  bed: string | null;
  likeNameBeds: readonly string[];
  /** Cautions that stand by what was recorded of the patient. */
  standing: readonly string[];
  demonstration: boolean;
  /** The ward's date today, `YYYY-MM-DD`, for the age. */
  today: string;
  /** The clock, the stream's state, when the last entry was kept. */
  aside?: ReactNode;
};

/** Who the patient is: the same on every screen of a patient, and never only the bed. */
export const PatientBanner = ({
  patient,
  bed,
  likeNameBeds,
  standing,
  demonstration,
  today,
  aside,
}: PatientBannerProps) => {
  const cautions = [...patient.cautions, ...standing];
  return (
    <header className={styles.banner}>
      <div>
        <h1 className={styles.name}>
          {patient.family}, {patient.given}
          {likeNameBeds.length > 0 && <span className={styles.like}>name like Bed {likeNameBeds.join(', Bed ')}</span>}
        </h1>
        <dl className={styles.details}>
          <Detail term="Born">
            {formatIsoDate(patient.dateOfBirth)} ({yearsOld(patient.dateOfBirth, today)} y)
          </Detail>
          <Detail term="Hospital number">{patient.hospitalNumber}</Detail>
          <Detail term="Gender">{patient.gender}</Detail>
          {bed !== null && <Detail term="Bed">{bed}</Detail>}
          {patient.allergy !== null && <Detail term="Allergy">{patient.allergy}</Detail>}
          {patient.isolation !== null && <Detail term="Isolation">{patient.isolation}</Detail>}
          {cautions.length > 0 && <Detail term="Caution">{cautions.join(' · ')}</Detail>}
        </dl>
      </div>
      <div className={styles.aside}>
        {aside}
        {demonstration && <span className={styles.demonstration}>Demonstration: invented patient</span>}
      </div>
    </header>
  );
};

const Detail = ({ term, children }: { term: string; children: ReactNode }) => (
  <div>
    <dt>{term}</dt>
    <dd>{children}</dd>
  </div>
);
