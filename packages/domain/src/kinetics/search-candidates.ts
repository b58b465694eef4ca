import type { Solution } from '../solution/solution.ts';
import type { DayDwell } from './day.ts';
import { bagOf } from './fluid.ts';
import { dwellRangeFor } from './ranges.ts';

/** One fluid of a candidate day, by its id in the formulary. */
export type PlannedDwell = DayDwell & { solutionId: string };

/** What a day may be built from. */
export type SearchSpace = {
  formulary: readonly Solution[];
  /** Fills that may be prescribed, mL; one for all dwells of a day. */
  fillsMl: readonly number[];
  /** How many exchanges a day may have at most. */
  mostExchanges: number;
  /** Lengths that the night dwell may have, min. */
  nightMinutes: readonly number[];
  /** What an exchange takes out of the day, drain and fill together, min. */
  exchangeMinutes: number;
};

const DAY_MINUTES = 24 * 60;

/**
 * Every day with so many exchanges: one night dwell, and day dwells that share the rest of the 24 h equally. A single
 * exchange is a night dwell and a dry day. Fluids of the same composition count once; icodextrin only in the night dwell
 * (one long dwell a day is what its label allows; common practice). Days that the model cannot carry are left out.
 */
export function candidatesWith(exchanges: number, space: SearchSpace): readonly (readonly PlannedDwell[])[] {
  const fluids = distinct(space.formulary);
  const dayMixes = mixes(
    fluids.filter((fluid) => fluid.icodextrinGPerL === 0),
    exchanges - 1,
  );
  return space.nightMinutes.flatMap((nightMinutes) => {
    const rest = DAY_MINUTES - nightMinutes - exchanges * space.exchangeMinutes;
    const dayMinutes = exchanges === 1 ? 0 : rest / (exchanges - 1);
    return space.fillsMl.flatMap((fillMl) =>
      fluids.flatMap((night) =>
        dayMixes.flatMap((mix) => {
          const dwells = [...mix.map((fluid) => plan(fluid, fillMl, dayMinutes)), plan(night, fillMl, nightMinutes)];
          return rest >= 0 && [night, ...mix].every((fluid) => holds(fluid, fillMl)) && dwells.every(isCarried)
            ? [dwells]
            : [];
        }),
      ),
    );
  });
}

const plan = (fluid: Solution, fillMl: number, dwellMinutes: number): PlannedDwell => ({
  solutionId: fluid.id,
  bag: bagOf(fluid),
  fillMl,
  dwellMinutes,
});

const isCarried = ({ bag, dwellMinutes }: PlannedDwell): boolean => {
  const { least, most } = dwellRangeFor(bag);
  return dwellMinutes >= least && dwellMinutes <= most;
};

/** Whether the ward keeps a bag of it that is large enough. */
const holds = (fluid: Solution, fillMl: number): boolean => fluid.bagMl.some((bagMl) => bagMl >= fillMl);

const distinct = (formulary: readonly Solution[]): readonly Solution[] => {
  const byContent = new Map<string, Solution>();
  for (const fluid of formulary) {
    const content = `${fluid.glucoseGPerL} ${fluid.icodextrinGPerL} ${fluid.sodiumMmolPerL}`;
    if (!byContent.has(content)) byContent.set(content, fluid);
  }
  return [...byContent.values()];
};

/** Every choice of `count` fluids in which order does not matter and repetition is allowed. */
const mixes = (fluids: readonly Solution[], count: number): readonly (readonly Solution[])[] =>
  count === 0
    ? [[]]
    : fluids.flatMap((fluid, index) => mixes(fluids.slice(index), count - 1).map((rest) => [fluid, ...rest]));
