import type { EntryKind, Payloads } from '@slackwater/domain';
import { MINUTE_MS } from '@slackwater/domain/time/instant';
import { useState } from 'react';
import { serverClock } from '../../api/clock.ts';
import { useMinute } from '../../live/now.ts';
import { Choice } from '../../ui/choice.tsx';
import { AGO_MINUTES } from '../bedside/model/ago.ts';
import { act } from '../bedside/model/batch.ts';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import { BowelsCard, ExitSiteCard, FluidCard } from './fluid-cards.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';
import { DischargeCard, MoveBedCard, OffWardCard, TransferCard } from './stay-cards.tsx';
import { GlucoseCard, PressureCard, TemperatureCard, WeightCard } from './vital-cards.tsx';

export const loader = loadPatient;

/** What is measured and seen beside the exchanges, and the patient's stay on the ward. */
export const Component = () => {
  const patient = usePatient();
  const recorder = useRecord(patient.patientId, patient.view.wardId);
  const [minutesAgo, setMinutesAgo] = useState(0);
  const now = useMinute();
  const at = () => serverClock.now() - minutesAgo * MINUTE_MS;
  const keep = <K extends EntryKind>(kind: K, payload: Payloads[K]) =>
    recorder.record([act(kind, payload, at())], null);
  const closed = patient.mayDo('recordObservation')
    ? patient.state.stay
      ? null
      : 'not on a ward'
    : 'not in your role';
  const observing: Observing = { patient, sending: recorder.sending, closed, keep, record: recorder.record, at };
  return (
    <PatientPage patient={patient} recorder={recorder}>
      <main>
        <div className={styles.when}>
          <Choice
            label="When it was"
            value={minutesAgo}
            onChange={setMinutesAgo}
            options={AGO_MINUTES.map((minutes) => ({
              value: minutes,
              label: minutes === 0 ? 'now' : `${minutes} min ago`,
              detail: patient.clock(now - minutes * MINUTE_MS),
            }))}
          />
        </div>
        <div className={styles.grid}>
          <WeightCard observing={observing} />
          <PressureCard observing={observing} />
          <FluidCard observing={observing} />
          <GlucoseCard observing={observing} />
          <TemperatureCard observing={observing} />
          <BowelsCard observing={observing} />
          <ExitSiteCard observing={observing} />
          <OffWardCard observing={observing} />
          <MoveBedCard observing={observing} />
          <TransferCard observing={observing} />
          <DischargeCard observing={observing} />
        </div>
      </main>
    </PatientPage>
  );
};
