import { standingCautions } from '@slackwater/domain/caution/words';
import { dateAt } from '@slackwater/domain/time/zone';
import { Link, NavLink } from 'react-router';
import { PatientBanner } from '../../../components/patient-banner.tsx';
import { StreamState } from '../../../components/stream-state.tsx';
import Waiting from '../../../components/waiting/waiting.tsx';
import { useMinute } from '../../../live/now.ts';
import { useBoard } from '../../../live/use-ward.ts';
import { useReach } from '../../../outbox/use-outbox.ts';
import { paths } from '../../../paths.ts';
import styles from './patient-head.module.css';
import type { PatientContext } from './use-patient.ts';

/** Who the patient is, the ward's clock and how fresh the screen is: the same at the head of every patient's screen. */
export const PatientHead = ({
  patient: { view, state, policy, ward, clock, session },
}: {
  patient: PatientContext;
}) => {
  const now = useMinute();
  const live = useBoard(ward.id);
  const reach = useReach();
  return (
    <PatientBanner
      patient={view.patient}
      bed={view.bed}
      likeNameBeds={view.likeNameBeds}
      standing={standingCautions(state, now, policy)}
      demonstration={session.demonstration || ward.demonstration !== null}
      today={dateAt(now, ward.zone)}
      aside={
        <span className={styles.ofNow}>
          <span className={styles.clock}>{clock(now)}</span>
          {reach.down ? (
            <span role="alert">
              <b>No connection</b> since {clock(reach.heardAt)}
            </span>
          ) : (
            <StreamState live={live} zone={ward.zone} />
          )}
          <Waiting ward={ward} />
        </span>
      }
    />
  );
};

/** On a phone the screens stand in one line that scrolls: the one that is shown is in sight. */
const showCurrent = (tabs: HTMLElement | null) =>
  tabs?.querySelector('[aria-current="page"]')?.scrollIntoView({ block: 'nearest', inline: 'center' });

/** The screens of one patient, and the way back to the ward. */
export const PatientNav = ({ patient: { patientId, view, state } }: { patient: PatientContext }) => (
  <nav className={styles.nav} aria-label="Screens of this patient">
    <div className={styles.tabs} ref={showCurrent}>
      <NavLink to={paths.bedside(patientId)}>Bedside</NavLink>
      <NavLink to={paths.record(patientId)}>Record</NavLink>
      <NavLink to={paths.observations(patientId)}>Observations</NavLink>
      <NavLink to={paths.prescription(patientId)}>Prescription</NavLink>
      <NavLink to={paths.rounds(patientId)}>Rounds</NavLink>
      <NavLink to={paths.inside(patientId)}>Inside</NavLink>
      {state.workUps.length > 0 && <NavLink to={paths.workUp(patientId)}>Work-up</NavLink>}
      {state.fluidHandover && <NavLink to={paths.handedOver(patientId)}>Handed over</NavLink>}
    </div>
    <Link className={styles.ward} to={paths.board(view.wardId)}>
      To the ward
    </Link>
  </nav>
);
