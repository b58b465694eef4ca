import type { WardView } from '@slackwater/contract';
import { useMay } from '../../api/use-session.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { useBoard } from '../../live/use-ward.ts';
import { History } from './history.tsx';
import { Responses } from './responses.tsx';
import { Settings } from './settings.tsx';
import { WallDisplays } from './wall-displays.tsx';
import styles from './ward-setup.module.css';

/** What a ward decides for itself. A manager changes it; the others may read it. */
export const WardSetup = ({ ward }: { ward: WardView }) => {
  const live = useBoard(ward.id);
  const maySet = useMay(ward.id, 'changeSettings');
  const mayKeepWalls = useMay(ward.id, 'keepWalls');
  return (
    <div className={styles.page} data-stream={live.connection.state}>
      <TopLine ward={ward} live={live} here="setup" />
      <StreamNotices ward={ward} live={live} />
      <main className={styles.main}>
        <h1>What {ward.name} decides for itself</h1>
        {mayKeepWalls && <WallDisplays ward={ward} />}
        <Settings ward={ward} mayNot={maySet ? null : 'Only a manager changes the settings'} />
        <Responses ward={ward} mayNot={maySet ? null : 'Only a manager changes the responses'} />
        <History ward={ward} />
      </main>
    </div>
  );
};
