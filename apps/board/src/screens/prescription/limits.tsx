import type { PatientLimits } from '@slackwater/domain';
import { formatMl } from '@slackwater/domain/words/numbers';
import styles from './prescription.module.css';

const rows = (limits: PatientLimits): readonly { term: string; words: string | null }[] => [
  { term: 'Most inside', words: limits.mostInsideMl === null ? null : formatMl(limits.mostInsideMl) },
  {
    term: 'Target weight',
    words: limits.weightTargetKg === null ? null : `${limits.weightTargetKg} kg, cavity ${limits.weightTargetCavity}`,
  },
  { term: 'Systolic', words: systolicWords(limits) },
  {
    term: 'Removed, at most',
    words:
      limits.overRemovalMl === null ? null : `${formatMl(limits.overRemovalMl)} within ${limits.overRemovalHours} h`,
  },
];

const systolicWords = ({ systolicLowMmHg: low, systolicHighMmHg: high }: PatientLimits): string | null => {
  if (low === null) return high === null ? null : `at most ${high} mmHg`;
  return high === null ? `at least ${low} mmHg` : `${low} to ${high} mmHg`;
};

/** The limits in force; one that is not set says so. */
export const Limits = ({ limits }: { limits: PatientLimits }) => (
  <dl className={styles.limitList}>
    {rows(limits).map(({ term, words }) => (
      <div key={term}>
        <dt>{term}</dt>
        <dd>{words ?? <span className="quiet">not set</span>}</dd>
      </div>
    ))}
  </dl>
);
