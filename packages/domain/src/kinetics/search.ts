import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import type { DayFigures } from './day-figures.ts';
import { steadyDay } from './day-model.ts';
import { candidatesWith, type PlannedDwell } from './search-candidates.ts';
import { checkSearch } from './search-problems.ts';
import type { SearchQuestion, SearchTargets } from './search-question.ts';

export type Candidate = { dwells: readonly PlannedDwell[]; figures: DayFigures };

export type SearchResult = {
  /** Days that reach every target with the fewest exchanges, least glucose absorbed first; at most ten. */
  reached: readonly Candidate[];
  /** When none does: the day whose worst target is least missed. */
  nearest: Candidate | null;
  tried: number;
};

export type SearchProgress = { tried: number; of: number };
export type SearchSteps = Generator<SearchProgress, SearchResult, undefined>;

const MOST_SHOWN = 10;

/**
 * "The fewest exchanges and the least glucose that reach these targets." Tries every day of the space, from one exchange
 * up, and stops after the first number of exchanges with which a day reaches them all.
 * @returns a generator: each step tries one day and tells how far it is; to cancel, stop asking. Its return value is
 * the result. A question that makes no sense is refused before the first step.
 */
export const searchPrescriptions = (question: SearchQuestion): Computed<SearchSteps> =>
  unlessRefused(checkSearch(question), () => computed(steps(question)));

function* steps(question: SearchQuestion): SearchSteps {
  const byExchanges = Array.from({ length: question.mostExchanges }, (_, i) => candidatesWith(i + 1, question));
  const of = byExchanges.reduce((sum, days) => sum + days.length, 0);
  let tried = 0;
  let nearest: { candidate: Candidate; reach: number } | null = null;
  for (const days of byExchanges) {
    const reached: Candidate[] = [];
    for (const dwells of days) {
      const candidate = candidateOf(dwells, question);
      tried += 1;
      if (candidate !== null) {
        const reach = reachOf(candidate.figures, question.targets);
        if (reach >= 1) reached.push(candidate);
        if (nearest === null || reach > nearest.reach) nearest = { candidate, reach };
      }
      yield { tried, of };
    }
    if (reached.length > 0) {
      return { reached: reached.sort(byGlucose).slice(0, MOST_SHOWN), nearest: null, tried };
    }
  }
  return { reached: [], nearest: nearest?.candidate ?? null, tried };
}

/** null = more inside than is allowed, or outside the model. */
function candidateOf(dwells: readonly PlannedDwell[], { patient, limits }: SearchQuestion): Candidate | null {
  if (dwells.some(({ fillMl }) => fillMl + patient.residualMl > limits.mostInsideMl)) return null;
  const { value } = steadyDay({ ...patient, dwells });
  if (value === null) return null;
  const { dwells: _, ...figures } = value;
  return figures.mostInsideMl.high > limits.mostInsideMl ? null : { dwells, figures };
}

/** Share of the worst reached target: 1 = all are reached. */
const reachOf = (figures: DayFigures, targets: SearchTargets): number =>
  Math.min(...TARGETS.map((name) => (targets[name] === undefined ? 1 : figures[name].value / targets[name])));

const TARGETS = ['weeklyKtV', 'creatinineClearanceLPerWeekPer173', 'ultrafiltrationMl'] as const;

const byGlucose = (a: Candidate, b: Candidate): number =>
  a.figures.glucoseAbsorbedG.value - b.figures.glucoseAbsorbedG.value;
