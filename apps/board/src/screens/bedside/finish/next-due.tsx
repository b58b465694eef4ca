import { dueWords } from '@slackwater/domain/dwell/due-words';
import { minutesBetween } from '@slackwater/domain/time/instant';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { useMinute } from '../../../live/now.ts';
import { useBedside } from '../bedside-context.ts';
import styles from './finish.module.css';

const WIDTH = 600;
const WORD = { drain: 'Next drain', fill: 'Next fill', review: 'Review' } as const;

/** When the next thing is due and by which rule, large, with the dwell that has been counting since the fill ended. */
export const NextDue = () => {
  const { state, policy, clock } = useBedside();
  const now = useMinute();
  const { due, cavity } = state;
  if (!due)
    return (
      <section className={styles.next} aria-label="Next">
        <p>Nothing is due: nothing is prescribed, or it is discontinued.</p>
      </section>
    );
  const minutes = minutesBetween(now, due.dueAt);
  const from = Math.min(cavity.since, now);
  const to = Math.max(due.overdueAt, now) + 60_000;
  const x = (at: number) => ((at - from) / (to - from)) * WIDTH;
  const holding = cavity.state === 'holding';
  return (
    <section className={styles.next} aria-label={WORD[due.what]}>
      <div>
        <h3>{WORD[due.what]}</h3>
        <p>
          <b className="mono">{clock(due.dueAt)}</b>{' '}
          {minutes >= 0 ? `in ${formatMinutes(minutes)}` : `${formatMinutes(minutes)} past due`}
        </p>
        <p className={due.ask ? styles.ask : 'quiet'}>{dueWords(due, policy)}</p>
      </div>
      <svg className={styles.tide} viewBox={`0 0 ${WIDTH} 72`} preserveAspectRatio="none" aria-hidden="true">
        {holding && (
          <>
            <path className={styles.past} d={`M0 68V22H${x(now)}V68Z`} />
            <path className={styles.ahead} d={`M${x(now)} 68V22H${x(due.dueAt)}V68Z`} />
            <path className={styles.edge} d={`M0 22H${x(due.dueAt)}`} />
          </>
        )}
        <path className={styles.edge} d={`M0 68H${WIDTH}`} />
        <path className={styles.now} d={`M${x(now)} 0V72`} />
        <path className={styles.post} d={`M${x(due.dueAt)} 6V70M${x(due.soonAt)} 70H${x(due.overdueAt)}`} />
      </svg>
    </section>
  );
};
