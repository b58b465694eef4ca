import { fluidTakenOver } from '@slackwater/domain/cavity/fluid-handover';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { Button } from '../../ui/button.tsx';
import { Facts } from '../bedside/shared/facts.tsx';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import { fluidFacts } from '../patient-record/words/fluid-words.ts';
import { catheterFacts } from './catheter-facts.ts';
import styles from './handed-over.module.css';

export const loader = loadPatient;

/** What was told of the fluid inside when the patient left, as it was told: to be read, and printed to go along. */
export const Component = () => {
  const patient = usePatient();
  const { state, ward, policy, patientId, view } = patient;
  const recorder = useRecord(patientId, view.wardId);
  const handover = state.fluidHandover;
  const teller = ward.staff.find(({ accountId }) => accountId === handover?.by)?.name;
  const when = (at: number) => `${formatClock(at, ward.zone)}, ${formatDate(at, ward.zone)}`;
  return (
    <PatientPage patient={patient} recorder={recorder}>
      <main className={styles.sheet}>
        <h2>Fluid inside, handed over</h2>
        {handover === null ? (
          <p>Nothing was handed over in this stay.</p>
        ) : (
          <>
            <p>
              {'place' in handover.to
                ? `Discharged from ${ward.name}, ${ward.hospital}, to ${handover.to.place}`
                : 'Transferred to another ward'}
              , {when(handover.at)}. Told to <b>{handover.toWhom}</b>
              {teller && ` by ${teller}`}.
            </p>
            <Facts
              facts={[
                ...fluidFacts(handover.said, { clock: when, formulary: policy.formulary }),
                ...catheterFacts(state, ward.zone),
              ]}
            />
            {fluidTakenOver(state)?.changedSince && (
              <p>
                <b>Changed in the record since it was told:</b> look at the bedside for what stands now.
              </p>
            )}
            <p className={styles.caution}>
              Not a prescription, and not from a certified medical device. Local policy and licensed staff decide.
              {ward.demonstration !== null && ' Demonstration: invented patient and numbers.'}
            </p>
            <div className={styles.acts}>
              <Button onPress={() => window.print()}>Print</Button>
            </div>
          </>
        )}
      </main>
    </PatientPage>
  );
};
