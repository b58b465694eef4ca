import { useSuspenseQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { WaitingNotice } from '../../components/waiting/waiting-notice.tsx';
import { useBoard } from '../../live/use-ward.ts';
import { withWaiting } from '../../outbox/predict.ts';
import { useTouchesOf } from '../../outbox/use-predicted.ts';
import { Button } from '../../ui/button.tsx';
import { cx } from '../../ui/class-names.ts';
import styles from './bedside.module.css';
import { type Bedside, BedsideProvider } from './bedside-context.ts';
import { BedsideAlerts } from './beside/bedside-alerts.tsx';
import { BesideHandedOver, BesideStayEmpty } from './beside/beside-leaving.tsx';
import { BesideWork } from './beside/beside-work.tsx';
import { BesideWorkUp } from './beside/beside-work-up.tsx';
import { OnThisDevice } from './beside/on-this-device.tsx';
import { SecondPersonAsked } from './beside/second-person-asked.tsx';
import { ConflictDialog } from './conflict/conflict-dialog.tsx';
import { placeOf } from './model/place.ts';
import { Prescribed } from './prescribed.tsx';
import { Resume } from './resume.tsx';
import { FailureNotice } from './shared/failure-notice.tsx';
import { PatientHead, PatientNav } from './shared/patient-head.tsx';
import { loadPatientWithEntries, recentEntriesQuery } from './shared/queries.ts';
import { StepsAreTheNurses } from './shared/steps-are-the-nurses.tsx';
import { usePatient } from './shared/use-patient.ts';
import { useRecord } from './shared/use-record.ts';
import { useTop } from './shared/use-top.ts';
import { FlatStaff, Staff } from './staff/staff.tsx';
import { staffRows } from './staff/staff-rows.ts';
import { Close } from './still/close.tsx';
import { Connect } from './still/connect.tsx';
import { Question, useAside, WIDE, WideWork, Work } from './work.tsx';

export const loader = loadPatientWithEntries;

/** One exchange at the bed: one block, one primary action; what is prescribed always in sight. */
export const Component = () => {
  const patient = usePatient();
  const { patientId, state, view, ward } = patient;
  const recorder = useRecord(patientId, view.wardId);
  const recent = useSuspenseQuery(recentEntriesQuery(patientId)).data.entries;
  const touches = useTouchesOf(patientId);
  const entries = withWaiting(recent, touches, {
    accountId: patient.session.account.id,
    name: patient.session.account.name,
  });
  const live = useBoard(ward.id);
  const [finishLater, setFinishLater] = useState<string | null>(null);
  const [closing, setClosing] = useState<string | null>(null);

  const asked = placeOf(state);
  const place = asked === 'finish' && finishLater === state.lastVisit?.id ? 'prepare' : asked;
  const { aside, open, back } = useAside(`${place}:${state.visit?.id ?? ''}`);
  const bedside: Bedside = { ...patient, ...recorder, place, entries, open, back };

  const leavingEmpty = closing !== null && closing === `${state.visit?.id}:${state.head}`;
  const still = place === 'connect' || place === 'close' || place === 'closeReady' || leavingEmpty;
  const rows = staffRows(state, leavingEmpty ? 'closeReady' : place, { clock: patient.clock, policy: patient.policy });
  const wide = aside !== null && WIDE.includes(aside);
  const { failure } = recorder;
  useTop(`${place}:${wide}:${state.visit?.id ?? ''}`);

  const ways = (
    <>
      <Resume />
      {(place === 'fillReady' || place === 'reading') && (
        <Button tone="text" onPress={() => open('leaveEmpty')}>
          Leave empty
        </Button>
      )}
      {state.visit && (
        <Button tone="text" onPress={() => open('stop')}>
          Stop exchange
        </Button>
      )}
    </>
  );

  return (
    <BedsideProvider value={bedside}>
      <div className={styles.page}>
        <PatientHead patient={patient} />
        <StreamNotices ward={ward} live={live} />
        <WaitingNotice ward={ward} />
        <FailureNotice recorder={recorder} />
        <StepsAreTheNurses />
        {still && !wide ? (
          <>
            <FlatStaff rows={rows} />
            {place === 'connect' ? <Connect /> : <Close leftEmpty={place !== 'close'} />}
          </>
        ) : (
          <>
            {(place === 'prepare' || place === 'finish') && <PatientNav patient={patient} />}
            <Prescribed />
            <FlatStaff rows={rows} onlyOnPhone />
            <div className={cx(styles.bed, wide && styles.wide)}>
              <Staff
                title={state.visit ? `Exchange begun ${patient.clock(state.visit.startedAt)}` : 'Next exchange'}
                rows={rows}
              >
                {ways}
              </Staff>
              <main className={styles.work}>
                {wide && aside ? (
                  <WideWork aside={aside} />
                ) : (
                  <Work onNext={() => setFinishLater(state.lastVisit?.id ?? null)} />
                )}
              </main>
              <div className={styles.waysOnPhone}>{ways}</div>
              {!wide && (
                <aside className={styles.side} aria-label="Beside it">
                  <SecondPersonAsked />
                  <OnThisDevice />
                  <BedsideAlerts />
                  <BesideStayEmpty />
                  <BesideHandedOver />
                  <BesideWorkUp />
                  <BesideWork place={place} />
                </aside>
              )}
            </div>
          </>
        )}
        {aside && !wide && (
          <Question
            aside={aside}
            onLeaveEmpty={() => {
              back();
              setClosing(`${state.visit?.id}:${state.head}`);
            }}
          />
        )}
        {failure?.is === 'conflict' && failure.theirs && (
          <ConflictDialog drafts={failure.drafts} theirs={failure.theirs} />
        )}
      </div>
    </BedsideProvider>
  );
};
