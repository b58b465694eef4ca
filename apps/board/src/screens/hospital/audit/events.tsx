import type { AuditEvent } from '@slackwater/contract';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { paths } from '../../../paths.ts';
import { cx } from '../../../ui/class-names.ts';
import { Table } from '../../../ui/table.tsx';
import styles from '../hospital.module.css';
import own from './audit.module.css';
import { AUDIT_WORDS, detailWords } from './audit-words.ts';

type EventsProps = {
  events: readonly AuditEvent[];
  zone: string;
  accountNames: ReadonlyMap<string, string>;
  wardNames: ReadonlyMap<string, string>;
};

/** What was found, newest first. A patient is a hospital number here, and a link to the record. */
export const Events = ({ events, zone, accountNames, wardNames }: EventsProps) => {
  if (events.length === 0) return <p role="status">Nothing is noted that fits.</p>;
  return (
    <Table
      rows={events}
      keyOf={({ id }) => id}
      columns={[
        {
          head: `When, ${zone}`,
          of: ({ at }) => `${formatDate(at, zone)} ${formatClock(at, zone)}`,
          className: own.when,
        },
        { head: 'Who', of: whoOf },
        {
          head: 'What',
          of: (event) => (
            <>
              {AUDIT_WORDS[event.what]}
              <Detail words={detailWords(event, accountNames)} />
            </>
          ),
        },
        {
          head: 'Patient',
          of: ({ patientId, hospitalNumber }) =>
            patientId === null ? null : (
              <Link to={paths.record(patientId)} className={cx(styles.link, 'nb')}>
                {hospitalNumber ?? 'not known'}
              </Link>
            ),
        },
        { head: 'Ward', of: ({ wardId }) => (wardId === null ? null : (wardNames.get(wardId) ?? wardId)) },
        { head: 'From', of: ({ address }) => address },
      ]}
    />
  );
};

const whoOf = ({ accountName, address }: AuditEvent): string =>
  accountName ?? (address === 'console' ? 'the server’s console' : 'nobody known');

const Detail = ({ words }: { words: string }) => (words === '' ? null : <small className={own.detail}> {words}</small>);
