import type { Problem } from '../record/problem.ts';
import type { EpochMs } from '../time/instant.ts';

/** What has to be true of the patient for the figures to mean what they usually mean. */
export type Standing = {
  /** When the collection ended. */
  collectedAt: EpochMs;
  /** Dialysis for acute kidney injury: the targets are others. */
  dialysis: 'chronic' | 'acute';
  /** A person's statement: same prescription, weight and blood values for some weeks; null = nobody said. */
  steady: boolean | null;
  /** End of treatment of the last peritonitis; null = none known. `'ongoing'` while it is treated. */
  peritonitisTreatedUntil: EpochMs | 'ongoing' | null;
};

/** "A month" of the guidelines, taken as 30 days (a setting). Source: KDOQI 2006. */
export const AFTER_PERITONITIS_DAYS = 30;
const DAY_MS = 86_400_000;

/** Circumstances that have to be said beside the figures; none of them stops the sums. */
export const standingIssues = (standing: Standing): readonly Problem[] => [
  ...(standing.dialysis === 'acute'
    ? [issue('acute', 'dialysis', 'acute', 'chronic', 'Acute dialysis: targets for chronic dialysis do not apply')]
    : []),
  ...(standing.steady === true
    ? []
    : [
        issue(
          'not-steady',
          'steady',
          standing.steady,
          'a stable patient',
          standing.steady === null
            ? 'Nobody has said that the patient is stable: the figures hold for stable patients only'
            : 'The patient is not stable: the figures hold for stable patients only',
        ),
      ]),
  ...(withinMonthOfPeritonitis(standing)
    ? [
        issue(
          'after-peritonitis',
          'peritonitisTreatedUntil',
          standing.peritonitisTreatedUntil,
          `at least ${AFTER_PERITONITIS_DAYS} days before the collection`,
          'Within a month of peritonitis: the membrane is not itself, repeat the test later',
        ),
      ]
    : []),
];

const withinMonthOfPeritonitis = ({ collectedAt, peritonitisTreatedUntil }: Standing): boolean => {
  if (peritonitisTreatedUntil === null) return false;
  if (peritonitisTreatedUntil === 'ongoing') return true;
  const days = (collectedAt - peritonitisTreatedUntil) / DAY_MS;
  return days < AFTER_PERITONITIS_DAYS;
};

const issue = (code: string, field: string, value: unknown, allowed: string, message: string): Problem => ({
  code,
  field,
  value,
  allowed,
  message,
});
