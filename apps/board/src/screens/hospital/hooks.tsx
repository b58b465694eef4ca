import type { HooksView, HookView } from '@slackwater/contract';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { queryOptions, useQuery } from '@tanstack/react-query';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
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
        hear of an alert, not the way. Times are those of {timeZone}.
      </p>
      {error && <p role="alert">{wordsOf(error)}</p>}
      {data?.hooks.length === 0 && <p className={styles.lead}>None is set: nobody outside the wards is told.</p>}
      {data && data.hooks.length > 0 && (
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Address</th>
              <th scope="col">Told of</th>
              <th scope="col">Last taken</th>
              <th scope="col">In 24 h</th>
              <th scope="col">Waiting</th>
              <th scope="col">Given up, 30 days</th>
            </tr>
          </thead>
          <tbody>
            {data.hooks.map((hook) => (
              <Hook key={hook.url} hook={hook} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
};

const { timeZone } = new Intl.DateTimeFormat().resolvedOptions();
const clock = (at: number) => `${formatDate(at, timeZone)} ${formatClock(at, timeZone)}`;

const Hook = ({ hook }: { hook: HookView }) => (
  <tr>
    <th scope="row">{hook.url}</th>
    <td>{hook.ranks.join(', ')}</td>
    <td>{hook.lastTakenAt === null ? 'never' : clock(hook.lastTakenAt)}</td>
    <td>{hook.takenToday}</td>
    <td>
      {hook.waiting}
      {hook.nextTryAt !== null && `, next try ${clock(hook.nextTryAt)}`}
      {hook.lastError !== null && <span className={styles.quiet}> {hook.lastError}</span>}
    </td>
    <td>{hook.givenUp}</td>
  </tr>
);
