import type { AuditEvent } from '@slackwater/contract';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { paths } from '../../../paths.ts';
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
    <div className={own.scroll}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col">Who</th>
            <th scope="col">What</th>
            <th scope="col">Patient</th>
            <th scope="col">Ward</th>
            <th scope="col">From</th>
          </tr>
        </thead>
        <tbody>
          {events.map((event) => (
            <tr key={event.id}>
              <td className={own.when}>
                {formatDate(event.at, zone)} {formatClock(event.at, zone)}
              </td>
              <th scope="row">
                {event.accountName ?? (event.address === 'console' ? 'the server’s console' : 'nobody known')}
              </th>
              <td>
                {AUDIT_WORDS[event.what]}
                <Detail words={detailWords(event, accountNames)} />
              </td>
              <td>
                {event.patientId !== null && (
                  <Link to={paths.record(event.patientId)} className={styles.link}>
                    {event.hospitalNumber ?? 'not known'}
                  </Link>
                )}
              </td>
              <td>{event.wardId !== null && (wardNames.get(event.wardId) ?? event.wardId)}</td>
              <td>{event.address}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};

const Detail = ({ words }: { words: string }) => (words === '' ? null : <small className={own.detail}> {words}</small>);
