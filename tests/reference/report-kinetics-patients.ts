import { AT } from '../../packages/domain/src/kinetics/equations.ts';
import { bagOf, type Residual, residualAtRest } from '../../packages/domain/src/kinetics/fluid.ts';
import type { Membrane } from '../../packages/domain/src/kinetics/membrane.ts';
import { MEAN_PLASMA, type PerSolute } from '../../packages/domain/src/kinetics/parameters.ts';
import { COARSE_STEP_MINUTES, concentrationsOf, runDwell } from '../../packages/domain/src/kinetics/run-dwell.ts';
import { surroundingsOf } from '../../packages/domain/src/kinetics/surroundings.ts';
import { STANDARD_FORMULARY, solutionOf } from '../../packages/domain/src/solution/formulary.ts';
import type { Solution } from '../../packages/domain/src/solution/solution.ts';
import type { Chance } from './report-kinetics-random.ts';

/** One recorded exchange of an invented patient: what the ward wrote down, and what somebody who knew all would expect. */
export type Exchange = {
  solution: Solution;
  fillMl: number;
  dwellMinutes: number;
  drainedMl: number;
  /** By the patient's true membrane, plasma, mean residual and bias; only chance is missing from it. */
  knownMl: number;
};

/**
 * Four worlds, none of them the estimator's model of the world. All vary membrane, plasma, residual and fluid; `biased`
 * misses by as much as the published overnight volumes do, `opposite` the other way round, `noisy` scatters twice as much.
 */
export const WORLDS = [
  { name: 'model true', bias: 0, noise: 1 },
  { name: 'biased as published', bias: 1, noise: 1 },
  { name: 'biased the other way', bias: -1, noise: 1 },
  { name: 'noisy', bias: 0, noise: 2 },
] as const;
export type World = (typeof WORLDS)[number];

const solution = (id: string): Solution => solutionOf(STANDARD_FORMULARY, id)!;
const LOW = solution('glucose-1.36');
const MIDDLE = solution('glucose-2.27');
const HIGH = solution('glucose-3.86');
const ICODEXTRIN = solution('icodextrin-7.5');

/** Days as wards prescribe them (common practice): three or four by day and a long one, or short ones in hospital. */
type Planned = { fluid: Solution; minutes: number };
const by = (fluid: Solution, hours: number): Planned => ({ fluid, minutes: hours * 60 });
const REGIMENS: readonly (readonly Planned[])[] = [
  [by(LOW, 5), by(LOW, 5), by(MIDDLE, 5), by(MIDDLE, 9)],
  [by(MIDDLE, 4), by(LOW, 4), by(MIDDLE, 4), by(LOW, 10)],
  [by(MIDDLE, 4), by(MIDDLE, 4), by(LOW, 6), by(HIGH, 9)],
  [by(LOW, 5), by(MIDDLE, 5), by(ICODEXTRIN, 13)],
  [by(MIDDLE, 4), by(MIDDLE, 4), by(MIDDLE, 4), by(ICODEXTRIN, 11)],
  [by(MIDDLE, 2), by(LOW, 2), by(HIGH, 2), by(MIDDLE, 3), by(LOW, 3), by(MIDDLE, 8)],
];

/** Real less modelled ultrafiltration at 2 L, mL: Kidney Int 1994;46:496 (8 and 12 h), none up to 4 h. */
const PUBLISHED_MISSES: readonly { percent: number; byHour: readonly [number, number][] }[] = [
  {
    percent: 1.36,
    byHour: [
      [4, 0],
      [8, 150 + 157],
      [12, 101 + 407],
    ],
  },
  {
    percent: 3.86,
    byHour: [
      [4, 0],
      [8, 448 - 789],
      [12, 414 - 534],
    ],
  },
];

const along = (points: readonly (readonly [number, number])[], x: number): number => {
  if (x <= points[0]![0]) return points[0]![1];
  for (let i = 1; i < points.length; i++) {
    const [x0, y0] = points[i - 1]!;
    const [x1, y1] = points[i]!;
    if (x <= x1) return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
  }
  return points.at(-1)![1];
};

const missMl = ({ glucoseGPerL, icodextrinGPerL }: Solution, fillMl: number, minutes: number): number => {
  if (icodextrinGPerL > 0) return 0;
  const atStrengths = PUBLISHED_MISSES.map(({ percent, byHour }) => [percent, along(byHour, minutes / 60)] as const);
  return (along(atStrengths, glucoseGPerL / 10) * fillMl) / 2000;
};

type Person = {
  membrane: Membrane;
  plasma: PerSolute;
  residualMl: number;
  biasShare: number;
  icodextrinShare: number;
  fillMl: number;
  regimen: readonly Planned[];
};

const personOf = (chance: Chance, world: World): Person => ({
  membrane: {
    lpSMlPerMinPerMmHg: 0.074 * Math.exp(clamp(chance.normal(0, 0.25), -0.7, 0.7)),
    areaOverLengthCm: 25_000 * Math.exp(clamp(chance.normal(0, 0.35), -0.9, 0.9)),
    lymphMlPerMin: clamp(chance.normal(0.35, 0.25), 0, 1.2),
  },
  plasma: { ...MEAN_PLASMA, glucose: chance.between(5, 11), sodium: chance.normal(138, 3) },
  residualMl: clamp(chance.normal(220, 70), 60, 450),
  biasShare: world.bias * chance.between(0.6, 1.4),
  // Sources on icodextrin differ twofold.
  icodextrinShare: chance.between(0.7, 1.4),
  fillMl: chance.pick([1500, 2000, 2000, 2000, 2500]),
  regimen: chance.pick(REGIMENS),
});

const clamp = (x: number, low: number, high: number): number => Math.min(high, Math.max(low, x));

/** How often a bag is mis-weighed (tare forgotten, flush weighed in, digit misread), and by how much. */
const MISWEIGHED_SHARE = 0.03;
const MISWEIGHED_ML = [200, 1000] as const;
/** How often the ward gives another strength than the regimen's. */
const CHANGED_SHARE = 0.12;

/** The recorded exchanges of one invented patient. */
export function courseOf(chance: Chance, world: World, exchanges: number): readonly Exchange[] {
  const person = personOf(chance, world);
  const records: Exchange[] = [];
  let residual = residualAtRest(person.residualMl, person.plasma);
  while (records.length < exchanges) {
    const planned = person.regimen[records.length % person.regimen.length]!;
    const dwellMinutes = Math.round(clamp(chance.normal(planned.minutes, 12 + planned.minutes / 40), 60, 940));
    const changed = planned.fluid.icodextrinGPerL === 0 && chance.uniform() < CHANGED_SHARE;
    const fluid = changed ? chance.pick([LOW, MIDDLE, HIGH]) : planned.fluid;
    const lived = liveDwell(chance, world, person, fluid, dwellMinutes, residual);
    // A cavity that runs dry is no ordinary drain: nobody learns from it.
    if (lived === null) {
      residual = residualAtRest(person.residualMl, person.plasma);
      continue;
    }
    residual = lived.left;
    records.push({ solution: fluid, fillMl: person.fillMl, dwellMinutes, ...lived.record });
  }
  return records;
}

function liveDwell(
  chance: Chance,
  world: World,
  person: Person,
  fluid: Solution,
  dwellMinutes: number,
  residual: Residual,
): { record: { drainedMl: number; knownMl: number }; left: Residual } | null {
  const { noise } = world;
  const bag = bagOf(fluid);
  const { fillMl } = person;
  const endOf = (membrane: Membrane, filledMl: number, before: Residual) => {
    const around = surroundingsOf({ membrane, plasmaMmolPerL: person.plasma });
    const { end, emptyAtMinute } = runDwell(
      { bag, fillMl: filledMl, dwellMinutes, residual: before },
      around,
      COARSE_STEP_MINUTES,
    );
    return emptyAtMinute === null ? end : null;
  };
  // From one day to the next the membrane is not the same, and a bag is never filled to the mL.
  const today: Membrane = {
    ...person.membrane,
    lpSMlPerMinPerMmHg: person.membrane.lpSMlPerMinPerMmHg * Math.exp(chance.normal(0, 0.04 * noise)),
    areaOverLengthCm: clamp(person.membrane.areaOverLengthCm * Math.exp(chance.normal(0, 0.05 * noise)), 5000, 65_000),
  };
  const real = endOf(today, fillMl + chance.normal(10, 15), residual);
  const known = endOf(person.membrane, fillMl + 10, { ...residual, volumeMl: person.residualMl });
  if (real === null || known === null) return null;

  const uf = (end: Float64Array, startMl: number): number =>
    icodextrinShare(fluid, person) * (end[AT.volumeMl]! - startMl) +
    person.biasShare * missMl(fluid, fillMl, dwellMinutes);
  const insideMl = fillMl + 10 + residual.volumeMl + uf(real, fillMl + 10 + residual.volumeMl);
  const leftMl = clamp(chance.normal(person.residualMl, 35 * noise), 20, 900);
  const trueDrainMl = insideMl - leftMl + chance.normal(0, 20 * noise * Math.sqrt(1 + (dwellMinutes / 600) ** 2));
  if (trueDrainMl < 50) return null;
  const misweighed = chance.uniform() < MISWEIGHED_SHARE;
  const slipMl = misweighed ? chance.pick([-1, 1]) * chance.between(...MISWEIGHED_ML) : 0;
  const drainedMl = Math.max(0, Math.round(trueDrainMl + slipMl + chance.normal(0, 25 * noise)));
  const knownMl = fillMl + 10 + uf(known, fillMl + 10 + person.residualMl);
  const left = { volumeMl: leftMl, mmolPerL: concentrationsOf(real), icodextrinGPerL: icodextrinLeft(real) };
  return { record: { drainedMl, knownMl }, left };
}

const icodextrinShare = ({ icodextrinGPerL }: Solution, person: Person): number =>
  icodextrinGPerL > 0 ? person.icodextrinShare : 1;

const icodextrinLeft = (end: Float64Array): number => (1000 * end[AT.icodextrinG]!) / end[AT.volumeMl]!;
