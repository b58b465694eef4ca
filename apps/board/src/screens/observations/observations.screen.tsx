import type { Draft, EntryKind, Payloads } from '@slackwater/domain';
import { MINUTE_MS } from '@slackwater/domain/time/instant';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { serverClock } from '../../api/clock.ts';
import { sendEntries } from '../../api/entries.ts';
import { wordsOf } from '../../api/problems.ts';
import { useMinute } from '../../live/now.ts';
import { paths } from '../../paths.ts';
import { Choice } from '../../ui/choice.tsx';
import { Notice } from '../../ui/notice.tsx';
import { AGO_MINUTES } from '../bedside/model/ago.ts';
import { type Act, act, composeBatch } from '../bedside/model/batch.ts';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import { DischargeCard } from './discharge-card.tsx';
import { ExitSiteCard } from './exit-site-card.tsx';
import { BowelsCard, FluidCard } from './fluid-cards.tsx';
import { MoveBedCard } from './move-bed-card.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';
import { OffWardCard } from './off-ward-card.tsx';
import { SymptomsCard } from './symptoms-card.tsx';
import { TransferCard } from './transfer-card.tsx';
import { CautionCard, GlucoseCard, PressureCard, TemperatureCard, WeightCard } from './vital-cards.tsx';

export const loader = loadPatient;

/**
 * Observations and stay. A transfer takes the patient out of this ward's sight, so the screen lets go of them before
 * the entries are sent, and comes back with the words of the server where they were refused.
 */
export const Component = () => {
  const navigate = useNavigate();
  const [leaving, setLeaving] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const transfer = async (wardId: string, drafts: readonly Draft[]) => {
    setRefused(null);
    setLeaving(true);
    try {
      await sendEntries(wardId, drafts);
      navigate(paths.board(wardId));
    } catch (problem) {
      setRefused(wordsOf(problem));
      setLeaving(false);
    }
  };
  if (leaving) return <p role="status">Being transferred.</p>;
  return <Observations refused={refused} onTransfer={(wardId, drafts) => void transfer(wardId, drafts)} />;
};

type ObservationsProps = {
  refused: string | null;
  onTransfer: (wardId: string, drafts: readonly Draft[]) => void;
};

/** What is measured and seen beside the exchanges, and the patient's stay on the ward. */
const Observations = ({ refused, onTransfer }: ObservationsProps) => {
  const patient = usePatient();
  const recorder = useRecord(patient.patientId, patient.view.wardId);
  const [minutesAgo, setMinutesAgo] = useState(0);
  const now = useMinute();
  const at = () => serverClock.now() - minutesAgo * MINUTE_MS;
  const keep = <K extends EntryKind>(kind: K, payload: Payloads[K]) =>
    recorder.record([act(kind, payload, at())], null);
  const keepAll: Observing['keepAll'] = (acts) =>
    recorder.record(
      acts.map((one) => ({ ...one, happenedAt: at() }) as Act),
      null,
    );
  const closed = patient.mayDo('recordObservation')
    ? patient.state.stay
      ? null
      : 'not on a ward'
    : 'not in your role';
  const transfer = (acts: readonly Act[]) =>
    onTransfer(patient.view.wardId, composeBatch(acts, { patientId: patient.patientId, visitId: null, head: null }));
  const observing: Observing = { patient, sending: recorder.sending, closed, keep, keepAll, transfer, at };
  return (
    <PatientPage patient={patient} recorder={recorder}>
      {refused && (
        <Notice tone="ink" urgent>
          <span>
            <b>Not transferred.</b> {refused}
          </span>
        </Notice>
      )}
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
          <CautionCard observing={observing} />
          <TemperatureCard observing={observing} />
          <BowelsCard observing={observing} />
          <SymptomsCard observing={observing} />
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
