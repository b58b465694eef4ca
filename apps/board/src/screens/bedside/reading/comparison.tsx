import type { BedsideState, Dwell } from '@slackwater/domain';
import { removedWords } from '@slackwater/domain/balance/words';
import type { Guard } from '@slackwater/domain/cavity/guard';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { minutesBetween } from '@slackwater/domain/time/instant';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { useBedside } from '../bedside-context.ts';
import { expectedOut } from '../model/expected-out.ts';
import { comparisonWords, insideWords } from '../model/words.ts';
import { useLearned } from '../shared/use-learned.ts';
import { Bars } from './bars.tsx';
import styles from './comparison.module.css';

type ComparisonProps = { dwell: Dwell; then: BedsideState; guard: Guard | null };

/** What the reading says, at once: against what went in, against what was expected, and what is probably inside. */
export const Comparison = ({ dwell, then, guard }: ComparisonProps) => {
  const { policy, patientId, clock } = useBedside();
  const learned = useLearned(patientId);
  const last = dwell.fills.at(-1);
  const firstDrain = dwell.drains[0];
  const lastDrain = dwell.drains.at(-1);
  const known = solutionOf(policy.formulary, last?.solutionId ?? null)?.strength;
  const strength = known ?? 'this fluid';
  const { filledMl, drainedMl, expectedUfMl, expectedUfSdMl } = dwell;
  if (drainedMl === null) return null;
  const dwellMinutes = last?.endedAt != null && firstDrain ? minutesBetween(last.endedAt, firstDrain.startedAt) : null;
  const table = expectedUfMl !== null && expectedUfSdMl !== null ? { ufMl: expectedUfMl, sdMl: expectedUfSdMl } : null;
  const out =
    filledMl !== null && firstDrain ? expectedOut(dwell.fills, firstDrain.startedAt, policy, learned, table) : null;
  const ran = lastDrain?.endedAt != null ? minutesBetween(lastDrain.startedAt, lastDrain.endedAt) : null;
  return (
    <section className={styles.comparison} aria-live="polite" aria-label="What the reading says">
      <p className={styles.verdict}>
        {dwell.drainMinusFillMl === null
          ? 'Incomplete: what went in is not known'
          : removedWords(dwell.drainMinusFillMl)}
      </p>
      {filledMl !== null && (
        <p className={styles.words}>
          {comparisonWords(drainedMl, filledMl, out && dwellMinutes !== null ? { out, strength, dwellMinutes } : null)}
        </p>
      )}
      <Bars
        inMl={filledMl}
        inDetail={[known, last?.endedAt && clock(last.endedAt)].filter(Boolean).join(', ')}
        outMl={drainedMl}
        outDetail={ran === null ? '' : `in ${formatMinutes(ran)}`}
        expected={out}
        inside={then.inside}
        afterFill={guard ? { peakMl: guard.peakMl, limitMl: then.prescription?.limits.mostInsideMl ?? null } : null}
      />
      <p className={styles.inside}>
        Probably inside: {insideWords(then.inside)} <small>an estimate, not a measurement</small>
      </p>
    </section>
  );
};
