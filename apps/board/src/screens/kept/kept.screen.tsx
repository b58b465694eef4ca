import type { KeptBatch, WardView } from '@slackwater/contract';
import { useQuery, useSuspenseQuery } from '@tanstack/react-query';
import { type LoaderFunctionArgs, useParams } from 'react-router';
import { wordsOf } from '../../api/problems.ts';
import { wardQuery } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { useMay, useSession } from '../../api/use-session.ts';
import { StreamNotices } from '../../components/stream-notices.tsx';
import { TopLine } from '../../components/top-line/top-line.tsx';
import { WaitingNotice } from '../../components/waiting/waiting-notice.tsx';
import { useBoard } from '../../live/use-ward.ts';
import { GroupPanel } from './group-panel.tsx';
import styles from './kept.module.css';
import { grouped } from './kept-group.ts';
import { keptOfWardQuery, myKeptQuery } from './kept-queries.ts';

export const loader = async ({ params }: LoaderFunctionArgs) => {
  await queryClient.ensureQueryData(wardQuery(params.ward ?? ''));
  return null;
};

/** Entries that waited on a device and were refused when they came: their author decides, or who may release them. */
export const Component = () => {
  const { ward: wardId = '' } = useParams();
  const { data: ward } = useSuspenseQuery(wardQuery(wardId));
  const { account } = useSession();
  const live = useBoard(wardId);
  const mayRelease = useMay(wardId, 'releaseOutbox');
  const mine = useQuery({ ...myKeptQuery, staleTime: 0 });
  const wards = useQuery({ ...keptOfWardQuery(wardId), enabled: mayRelease, staleTime: 0 });
  const others = wards.data?.batches.filter(({ author }) => author.id !== account.id);
  const problem = mine.error ?? wards.error;
  return (
    <div className={styles.page}>
      <TopLine ward={ward} live={live} here="kept" />
      <StreamNotices ward={ward} live={live} />
      <WaitingNotice ward={ward} />
      <main className={styles.main}>
        <h1>Kept for a decision</h1>
        <p>
          These entries waited on a device without network, and the record refused them when they came. They are on the
          server, not in the record.
        </p>
        {problem && <p role="alert">{wordsOf(problem)}</p>}
        <Section title="Kept for you" ward={ward} batches={mine.data?.batches} none="Nothing of yours is kept." />
        {mayRelease && (
          <Section
            title="Kept on the ward"
            ward={ward}
            batches={others}
            none="Nothing of anybody else is kept. What a person does not come back to may be released here, under both names."
          />
        )}
      </main>
    </div>
  );
};

type SectionProps = { title: string; ward: WardView; batches: readonly KeptBatch[] | undefined; none: string };

const Section = ({ title, ward, batches, none }: SectionProps) => {
  const groups = grouped(batches ?? []);
  return (
    <section aria-label={title} className={styles.section}>
      <h2>
        {title}
        {groups.length > 0 && `: ${batches?.flatMap(({ entries }) => entries).length}`}
      </h2>
      {batches && groups.length === 0 && <p className="quiet">{none}</p>}
      {groups.map((group) => (
        <GroupPanel key={group.key} group={group} ward={ward} />
      ))}
    </section>
  );
};
