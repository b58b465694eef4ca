import type { ReactNode } from 'react';
import { StreamNotices } from '../../../components/stream-notices.tsx';
import { WaitingNotice } from '../../../components/waiting/waiting-notice.tsx';
import { useBoard } from '../../../live/use-ward.ts';
import { FailureNotice } from './failure-notice.tsx';
import { PatientHead, PatientNav } from './patient-head.tsx';
import styles from './patient-page.module.css';
import type { PatientContext } from './use-patient.ts';
import type { Recorder } from './use-record.ts';

type PatientPageProps = { patient: PatientContext; recorder: Recorder; children: ReactNode };

/** The frame of a patient's screens other than the bedside: who, how fresh, what failed, where else. */
export const PatientPage = ({ patient, recorder, children }: PatientPageProps) => {
  const live = useBoard(patient.ward.id);
  return (
    <div className={styles.page}>
      <PatientHead patient={patient} />
      <StreamNotices ward={patient.ward} live={live} />
      <WaitingNotice ward={patient.ward} />
      <FailureNotice recorder={recorder} />
      <PatientNav patient={patient} />
      {children}
    </div>
  );
};
