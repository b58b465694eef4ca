import { useSuspenseQuery } from '@tanstack/react-query';
import { type LoaderFunctionArgs, useParams } from 'react-router';
import { wardQuery } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { useMay } from '../../api/use-session.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { loadBoard, useBoard } from '../../live/use-ward.ts';
import styles from './import.module.css';
import { ImportSheet } from './import-sheet.tsx';

export const loader = async ({ params }: LoaderFunctionArgs) => {
  const wardId = params.ward ?? '';
  await Promise.all([queryClient.ensureQueryData(wardQuery(wardId)), loadBoard(wardId)]);
  return null;
};

/** A flow sheet of past exchanges, from a file into the record. */
export const Component = () => {
  const { ward: wardId = '' } = useParams();
  const { data: ward } = useSuspenseQuery(wardQuery(wardId));
  const live = useBoard(wardId);
  const mayImport = useMay(wardId, 'importExport');
  return (
    <div className={styles.page} data-stream={live.connection.state}>
      <TopLine ward={ward} live={live} here="setup" />
      <StreamNotices ward={ward} live={live} />
      <main className={styles.main}>
        <h1>Bring a flow sheet into {ward.name}</h1>
        <ImportSheet key={wardId} ward={ward} mayNot={mayImport ? null : 'Only a manager brings in a flow sheet'} />
      </main>
    </div>
  );
};
