import type { WardView } from '@slackwater/contract';
import type { BoardRow } from '@slackwater/domain';
import { ALERT_TITLES } from '@slackwater/domain/alert/alert';
import { useEffect, useState, useSyncExternalStore } from 'react';
import { asTheClockSays, useMinute } from '../../live/now.ts';
import type { WardNow } from '../../live/ward-live.ts';
import { RANK_WORDS } from '../alert-flag/alert-flag.tsx';
import { type Calling, callingAt } from './calling.ts';
import styles from './calls.module.css';
import { useDeviceCalls } from './device-calls.ts';
import { createNotices } from './notices.ts';
import { createSounder, type Sounder } from './sounder.ts';

type CallsProps = { ward: WardView; live: WardNow<BoardRow> };

/** Calls from this device as it was chosen here, and says how it stands with the sound. */
export const Calls = ({ ward, live }: CallsProps) => {
  const { sound, notices } = useDeviceCalls();
  const now = asTheClockSays(useMinute());
  // what is stale may be acknowledged long since, and could not be acknowledged here
  const deaf = live.connection.state === 'stale';
  const calling = deaf || live.rows === null ? [] : callingAt(live.rows.byId.values(), now);
  return (
    <>
      {sound === 'high' && <Sound wardId={ward.id} calling={calling} deaf={deaf} />}
      {notices === 'high' && <Notices ward={ward} calling={calling} />}
    </>
  );
};

const Sound = ({ wardId, calling, deaf }: { wardId: string; calling: readonly Calling[]; deaf: boolean }) => {
  const [sounder, setSounder] = useState<Sounder | null>(null);
  useEffect(() => {
    const made = createSounder(wardId);
    setSounder(made);
    return () => {
      setSounder(null);
      made.end();
    };
  }, [wardId]);
  const wanted = calling.length > 0;
  useEffect(() => sounder?.want(wanted), [sounder, wanted]);
  return sounder && <SoundState sounder={sounder} calling={calling} deaf={deaf} />;
};

type SoundStateProps = { sounder: Sounder; calling: readonly Calling[]; deaf: boolean };

const SoundState = ({ sounder, calling, deaf }: SoundStateProps) => {
  const state = useSyncExternalStore(sounder.subscribe, sounder.state);
  if (state === 'waitsForPress') {
    // the press itself is what the browser waits for
    return (
      <button type="button" className={styles.press}>
        Sound is not allowed yet: press here
      </button>
    );
  }
  const beds = [...new Set(calling.map(({ bed }) => bed))].join(', ');
  return (
    <span className={styles.sound} data-sound={state}>
      {deaf ? 'Sound: nothing is heard' : state === 'elsewhere' ? 'Sound in another tab' : null}
      {!deaf && state === 'quiet' && 'Sound on'}
      {!deaf && state === 'sounding' && `Sounding for bed ${beds}`}
    </span>
  );
};

const Notices = ({ ward, calling }: { ward: WardView; calling: readonly Calling[] }) => {
  const [notices, setNotices] = useState<ReturnType<typeof createNotices> | null>(null);
  useEffect(() => {
    const made = createNotices(ward.id);
    setNotices(made);
    return () => {
      setNotices(null);
      made.end();
    };
  }, [ward.id]);
  useEffect(() => {
    notices?.show(
      calling.map(({ alert, bed }) => ({
        id: alert.id,
        title: `${RANK_WORDS[alert.rank]}: ${ALERT_TITLES[alert.kind]}`,
        body: `Bed ${bed}, ${ward.name}`,
      })),
    );
  });
  return null;
};
