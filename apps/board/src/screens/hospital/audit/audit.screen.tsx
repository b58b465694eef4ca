import type { AuditPage } from '@slackwater/contract';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { api } from '../../../api/client.ts';
import { wordsOf } from '../../../api/problems.ts';
import { useSession } from '../../../api/use-session.ts';
import { paths } from '../../../paths.ts';
import { Button } from '../../../ui/button.tsx';
import { accountsQuery } from '../accounts-query.ts';
import styles from '../hospital.module.css';
import { HospitalFrame } from '../hospital-frame.tsx';
import { NO_FILTER, queryOf } from './audit-filter.ts';
import { Events } from './events.tsx';
import { FilterFields } from './filter-fields.tsx';

/** The browser's zone: the audit is the hospital's, and its wards may lie in several. */
const { timeZone } = new Intl.DateTimeFormat().resolvedOptions();

/** Who looked, who went on against a stop, who changed what: for managers. */
export const Component = () => (
  <HospitalFrame>
    <Audit />
  </HospitalFrame>
);

const Audit = () => {
  const { roles } = useSession();
  const [filter, setFilter] = useState(NO_FILTER);
  const accounts = useQuery(accountsQuery).data?.accounts ?? [];
  const query = queryOf(filter, timeZone).toString();
  const found = useInfiniteQuery({
    queryKey: ['audit', query],
    queryFn: ({ pageParam, signal }) =>
      api.get<AuditPage>(`/api/audit?${query}${pageParam && `&cursor=${pageParam}`}`, { signal }),
    initialPageParam: '',
    getNextPageParam: ({ nextCursor }) => nextCursor,
    staleTime: 0,
  });
  const events = found.data?.pages.flatMap((page) => page.events) ?? [];
  const wards = roles.filter(({ role }) => role === 'manager');
  return (
    <section aria-label="Audit">
      <p>
        <Link to={paths.hospital()} className={styles.link}>
          The hospital
        </Link>
      </p>
      <h1>Audit</h1>
      <p className={styles.lead}>
        The server itself can change or take away nothing of this. Looking here is noted too; the same look again within
        five minutes counts once. Times and days are those of {timeZone}.
      </p>
      <FilterFields accounts={accounts} wards={wards} isLooking={found.isFetching} onSearch={setFilter} />
      {found.isError && <p role="alert">{wordsOf(found.error)}</p>}
      {found.data && (
        <Events
          events={events}
          zone={timeZone}
          accountNames={new Map(accounts.map(({ id, name }) => [id, name]))}
          wardNames={new Map(wards.map(({ wardId, wardName }) => [wardId, wardName]))}
        />
      )}
      {found.hasNextPage && (
        <Button disabledBecause={found.isFetching ? 'looking' : null} onPress={() => found.fetchNextPage()}>
          Show older ones
        </Button>
      )}
    </section>
  );
};
