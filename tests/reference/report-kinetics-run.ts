import { expectedUf } from '../../packages/domain/src/cavity/expected.ts';
import { EXPECTED_UF } from '../../packages/domain/src/cavity/expected-table.ts';
import { beginLearning } from '../../packages/domain/src/kinetics/begin-learning.ts';
import {
  type DrainEstimator,
  type Foreseen,
  foresee,
  learnDrain,
} from '../../packages/domain/src/kinetics/drain-estimator.ts';
import { modelledDrain } from '../../packages/domain/src/kinetics/drain-model.ts';
import { bagOf } from '../../packages/domain/src/kinetics/fluid.ts';
import { incompleteBeta } from '../../packages/domain/src/statistics/beta.ts';
import { courseOf, type Exchange, WORLDS } from './report-kinetics-patients.ts';
import { chanceFrom } from './report-kinetics-random.ts';

export const LENGTHS = ['up to 3 h', '3 to 6 h', '6 to 10 h', 'over 10 h'] as const;
export type Length = (typeof LENGTHS)[number];
export const METHODS = ['learned', 'true parameters', 'moving average', 'last of this kind', 'drain = fill'] as const;
export type Method = (typeof METHODS)[number];

/** One drain that was foreseen one step ahead. */
export type Foresight = {
  world: string;
  /** Drains that the estimator had learned from. */
  seen: number;
  length: Length;
  /** The first of its fluid and length for this patient. */
  newKind: boolean;
  /** The narrowest central band that holds the drain: 0.8 and less lies within the 80 % band. */
  bandShare: number;
  /** |foreseen − drained|, mL. */
  errorMl: Readonly<Record<Method, number>>;
};

/** What the ward takes to stay behind: its own setting, not the patients' truth. */
const RESIDUAL_ML = 200;
const MOVING_SHARE = 0.15;

const lengthOf = (minutes: number): Length =>
  LENGTHS[minutes <= 180 ? 0 : minutes <= 360 ? 1 : minutes <= 600 ? 2 : 3]!;

/**
 * Foresees every drain of so many invented patients in each world, one step ahead. Patients come to their ward one after
 * another: each starts with what the earlier ones of the same world taught.
 */
export function foreseeWorlds(patients: number, exchanges: number, seed: number): readonly Foresight[] {
  return WORLDS.flatMap((world, index) => {
    const earlier: DrainEstimator[] = [];
    return Array.from({ length: patients }, (_, patient) => {
      const chance = chanceFrom(seed + 100_000 * index + patient);
      const { foresights, estimator } = foreseeCourse(courseOf(chance, world, exchanges), world.name, earlier);
      earlier.push(estimator);
      return foresights;
    }).flat();
  });
}

function foreseeCourse(
  course: readonly Exchange[],
  world: string,
  earlier: readonly DrainEstimator[],
): { foresights: readonly Foresight[]; estimator: DrainEstimator } {
  let estimator = beginLearning(earlier);
  const seen = new Map<string, { last: number; average: number }>();
  const foresights: Foresight[] = [];
  for (const exchange of course) {
    const { solution, fillMl, dwellMinutes, drainedMl } = exchange;
    const { value: modelled } = modelledDrain(
      { bag: bagOf(solution), fillMl, dwellMinutes },
      { residualMl: RESIDUAL_ML },
    );
    if (modelled === null) continue;
    const length = lengthOf(dwellMinutes);
    const kind = `${solution.id}, ${length}`;
    const own = seen.get(kind);
    // A kind never seen: the ward's table, which is what the product showed before it learned.
    const byTable = fillMl + (expectedUf(solution, fillMl, dwellMinutes, EXPECTED_UF)?.ufMl ?? 0);
    const foreseen = foresee(estimator, modelled);
    const errorOf = (ml: number): number => Math.abs(ml - drainedMl);
    foresights.push({
      world,
      seen: estimator.drains,
      length,
      newKind: own === undefined,
      bandShare: narrowestBand(foreseen, drainedMl),
      errorMl: {
        learned: errorOf(foreseen.drainMl),
        'true parameters': errorOf(exchange.knownMl),
        'moving average': errorOf(own?.average ?? byTable),
        'last of this kind': errorOf(own?.last ?? byTable),
        'drain = fill': errorOf(fillMl),
      },
    });
    estimator = learnDrain(estimator, modelled, drainedMl).value ?? estimator;
    const average = own === undefined ? drainedMl : own.average + MOVING_SHARE * (drainedMl - own.average);
    seen.set(kind, { last: drainedMl, average });
  }
  return { foresights, estimator };
}

/** Share of Student's t within ± |t|. */
const narrowestBand = ({ drainMl, sdMl, degreesOfFreedom }: Foreseen, drainedMl: number): number => {
  const t = (drainedMl - drainMl) / sdMl;
  return incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t ** 2), degreesOfFreedom / 2, 0.5).upper;
};
