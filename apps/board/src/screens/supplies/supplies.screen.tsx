import { useSuspenseQuery } from '@tanstack/react-query';
import { type LoaderFunctionArgs, useParams } from 'react-router';
import { wardQuery } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { useMay } from '../../api/use-session.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { loadBoard, useBoard } from '../../live/use-ward.ts';
import { LotSearch } from './lot-search.tsx';
import { Products } from './products.tsx';
import { Recalls } from './recalls.tsx';
import styles from './supplies.module.css';

export const loader = async ({ params }: LoaderFunctionArgs) => {
  const wardId = params.ward ?? '';
  await Promise.all([queryClient.ensureQueryData(wardQuery(wardId)), loadBoard(wardId)]);
  return null;
};

/** Who had which lot, what is recalled, and what a product code stands for. */
export const Component = () => {
  const { ward: wardId = '' } = useParams();
  const { data: ward } = useSuspenseQuery(wardQuery(wardId));
  const live = useBoard(ward.id);
  const mayKeep = useMay(ward.id, 'keepSupplies');
  const mayNot = mayKeep ? null : 'a charge nurse or manager';
  return (
    <div className={styles.page} data-stream={live.connection.state}>
      <TopLine ward={ward} live={live} here="supplies" />
      <StreamNotices ward={ward} live={live} />
      <main className={styles.main}>
        <h1>Products, recalls, lots</h1>
        <LotSearch ward={ward} />
        <Recalls ward={ward} mayNot={mayNot} />
        <Products ward={ward} mayNot={mayNot} />
      </main>
    </div>
  );
};
