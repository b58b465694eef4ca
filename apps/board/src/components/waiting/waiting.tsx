import type { WardView } from '@slackwater/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useMay } from '../../api/use-session.ts';
import { useOutbox } from '../../outbox/use-outbox.ts';
import { paths } from '../../paths.ts';
import { keptOfWardQuery, myKeptQuery } from '../../screens/kept/kept-queries.ts';
import { ClockQuestion } from './clock-question.tsx';
import styles from './waiting.module.css';
import { WaitingDialog } from './waiting-dialog.tsx';
import { entriesOf } from './waiting-words.ts';

/** What waits on this device and what is kept on the server, in numbers, where there is something to say. */
const Waiting = ({ ward }: { ward: WardView }) => {
  const now = useOutbox();
  const [open, setOpen] = useState(false);
  const mayRelease = useMay(ward.id, 'releaseOutbox');
  const mine = useQuery(myKeptQuery).data?.batches.length ?? 0;
  const wards = useQuery({ ...keptOfWardQuery(ward.id), enabled: mayRelease }).data?.batches.length ?? 0;
  const count = entriesOf(now);
  const elsewhere = now.others.reduce((sum, { entries }) => sum + entries, now.newer);
  return (
    <>
      {(count > 0 || elsewhere > 0) && (
        <button type="button" className={styles.count} onClick={() => setOpen(true)}>
          {count > 0 ? `${count} on this device` : `${elsewhere} of others here`}
        </button>
      )}
      {(mine > 0 || wards > 0) && (
        <Link to={paths.kept(ward.id)} className={styles.count}>
          {mine > 0 ? `Kept for you: ${mine}` : `Kept on the ward: ${wards}`}
        </Link>
      )}
      {open && <WaitingDialog now={now} zone={ward.zone} onClose={() => setOpen(false)} />}
      <ClockQuestion now={now} zone={ward.zone} />
    </>
  );
};

export default Waiting;
