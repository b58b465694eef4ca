import { formatClock } from '@slackwater/domain/words/numbers';
import { useEffect, useState } from 'react';
import { keptBedsides } from '../outbox/kept-views.ts';
import { paths } from '../paths.ts';
import styles from './kept-bedsides.module.css';

type Shown = Awaited<ReturnType<typeof keptBedsides>>;

/** Without network: the beds that this device can show and record at, with how old its word about them is. */
const KeptBedsides = () => {
  const [kept, setKept] = useState<Shown>([]);
  useEffect(() => {
    keptBedsides().then(setKept, () => setKept([]));
  }, []);
  if (kept.length === 0) return null;
  return (
    <section aria-label="Bedsides on this device" className={styles.kept}>
      <h2>These bedsides are kept on this device</h2>
      <ul>
        {kept.map(({ view: { patient, bed }, zone, heardAt }) => (
          <li key={patient.id}>
            <a href={paths.bedside(patient.id)}>
              {patient.family}, {patient.given}
              {bed !== null && `, Bed ${bed}`}
            </a>{' '}
            as of {formatClock(heardAt, zone)}
          </li>
        ))}
      </ul>
    </section>
  );
};

export default KeptBedsides;
