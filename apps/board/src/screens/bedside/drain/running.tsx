import type { EpochMs } from '@slackwater/domain';
import { minutesBetween } from '@slackwater/domain/time/instant';
import { useSecond } from '../../../live/now.ts';
import type { Fact } from '../shared/facts.tsx';
import styles from './running.module.css';

/** Whole minutes since an instant, by the ward's clock; never negative. */
export const useMinutesSince = (since: EpochMs): number => Math.max(0, Math.floor(minutesBetween(since, useSecond())));

/** What runs, for how long, and what it should be. The count is silent for screen readers: it would speak each minute. */
export const Running = ({ heading, minutes, facts }: { heading: string; minutes: number; facts: readonly Fact[] }) => (
  <div className={styles.run}>
    <div>
      <h2 className={styles.heading}>{heading}</h2>
      <p className={styles.minutes} role="timer">
        {minutes}
        <i>min</i>
      </p>
    </div>
    <dl className={styles.facts}>
      {facts.map((fact) => (
        <div key={String(fact.term)}>
          <dt>{fact.term}</dt>
          <dd>
            {fact.value} {fact.detail ? <small>{fact.detail}</small> : null}
          </dd>
        </div>
      ))}
    </dl>
  </div>
);
