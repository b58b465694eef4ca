import type { EntryKind, Payloads, WorkUp } from '@slackwater/domain';
import { openWorkUp } from '@slackwater/domain/peritonitis/work-up';
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
import observations from '../observations/observations.module.css';
import { AntibioticCard } from './antibiotic-card.tsx';
import { ConcludeCard } from './conclude-card.tsx';
import { EarlierWorkUps } from './earlier-work-ups.tsx';
import { ResultCard } from './result-card.tsx';
import { SampleCard } from './sample-card.tsx';
import { Standing } from './standing.tsx';
import { ToldCard } from './told-card.tsx';
import styles from './work-up.module.css';
import type { AtWorkUp } from './work-up-context.ts';

export const loader = loadPatient;

/** A suspected peritonitis: how it stands by the three criteria, what was sent, what came back, who was told. */
export const Component = () => {
  const patient = usePatient();
  const recorder = useRecord(patient.patientId, patient.view.wardId);
  const { workUps } = patient.state;
  const current = openWorkUp(workUps) ?? newestPeritonitis(workUps);
  const earlier = workUps.filter((one) => one !== current);
  return (
    <PatientPage patient={patient} recorder={recorder}>
      <main className={styles.main}>
        {current ? (
          <Current key={current.id} patient={patient} workUp={current} recorder={recorder} />
        ) : (
          <>
            <h1>Suspected peritonitis</h1>
            <p>No work-up is open. The first drain that looks cloudy, milky, brown or green opens one.</p>
          </>
        )}
        <EarlierWorkUps patient={patient} workUps={earlier} />
      </main>
    </PatientPage>
  );
};

/** After a peritonitis the counts of the days that follow still belong to it, while it is the newest. */
const newestPeritonitis = (workUps: readonly WorkUp[]): WorkUp | null => {
  const newest = workUps[0] ?? null;
  return newest?.closed?.conclusion === 'peritonitis' ? newest : null;
};

type CurrentProps = Pick<AtWorkUp, 'patient' | 'workUp'> & { recorder: ReturnType<typeof useRecord> };

const Current = ({ patient, workUp, recorder }: CurrentProps) => {
  const [minutesAgo, setMinutesAgo] = useState(0);
  const now = useMinute();
  const at = () => serverClock.now() - minutesAgo * MINUTE_MS;
  const keep = <K extends EntryKind>(kind: K, payload: Payloads[K]) =>
    recorder.record([act(kind, payload, at())], null);
  const closed = patient.mayDo('recordObservation') ? null : 'not in your role';
  const atWorkUp: AtWorkUp = { patient, workUp, sending: recorder.sending, closed, keep, at };
  return (
    <>
      <Standing patient={patient} workUp={workUp} />
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
      <div className={observations.grid}>
        <SampleCard {...atWorkUp} />
        <ResultCard {...atWorkUp} />
        <AntibioticCard {...atWorkUp} />
        <ToldCard {...atWorkUp} />
        {workUp.closed === null && <ConcludeCard {...atWorkUp} />}
      </div>
    </>
  );
};
