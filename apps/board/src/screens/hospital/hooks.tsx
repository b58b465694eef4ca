import type { HooksView, HookView } from '@slackwater/contract';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { queryOptions, useQuery } from '@tanstack/react-query';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { Table } from '../../ui/table.tsx';
import styles from './hospital.module.css';

const LOOKED_AT_EVERY_MS = 15_000;

const hooksQuery = queryOptions({
  queryKey: ['hooks'],
  queryFn: ({ signal }) => api.get<HooksView>('/api/hooks', { signal }),
  refetchInterval: LOOKED_AT_EVERY_MS,
});

/** Which paging systems are told of alerts, and whether they took what they were told. */
export const Hooks = () => {
  const { data, error } = useQuery(hooksQuery);
  return (
    <section aria-label="Paging">
      <h2>Paging</h2>
      <p className={styles.lead}>
        Paging systems that are told when an alert is raised, goes up a step or is cleared: bed, kind and rank, never a
        name. They are set where the server is started (SLACKWATER_HOOKS) and nowhere else. A pager is one more way to
        hear of an alert, not the way.
      </p>
      {error && <p role="alert">{wordsOf(error)}</p>}
      {data?.hooks.length === 0 && <p className={styles.lead}>None is set: nobody outside the wards is told.</p>}
      {data && data.hooks.length > 0 && (
        <Table
          rows={data.hooks}
          keyOf={({ url }) => url}
          columns={[
            { head: 'Address', of: ({ url }) => url, className: styles.address },
            { head: 'Told of', of: ({ ranks }) => ranks.join(', ') },
            {
              head: `Last taken, ${timeZone}`,
              of: ({ lastTakenAt }) => (lastTakenAt === null ? 'never' : clock(lastTakenAt)),
            },
            { head: 'In 24 h', of: ({ takenToday }) => takenToday },
            { head: 'Waiting', of: waitingOf },
            { head: 'Given up, 30 days', of: ({ givenUp }) => givenUp },
          ]}
        />
      )}
    </section>
  );
};

const { timeZone } = new Intl.DateTimeFormat().resolvedOptions();
const clock = (at: number) => `${formatDate(at, timeZone)} ${formatClock(at, timeZone)}`;

const waitingOf = ({ waiting, nextTryAt, lastError }: HookView) => (
  <>
    {waiting}
    {nextTryAt !== null && `, next try ${clock(nextTryAt)} ${timeZone}`}
    {lastError !== null && <span className={styles.quiet}> {lastError}</span>}
  </>
);
