import { type Bag, type DwellEnd, type OutsideModel, type Residual, simulateDwell } from './dwell-model.ts';
import { type Membrane, populationMembrane } from './membrane.ts';
import { BOUNDS, MEAN_PLASMA, type PerSolute, POPULATION } from './parameters.ts';

/** A 4 h membrane test as it was done. */
export type MembraneTest = {
  bag: Bag;
  fillMl: number;
  residual: Residual;
  plasmaMmolPerL?: PerSolute;
  /** Dialysate over plasma creatinine at 4 h, corrected for glucose. */
  dOverPCreatinine: number;
};

export type FitRefused = { fitted: false; field: string; value: number; allowed: string; why: string };
export type AreaFit = { fitted: true; areaOverLengthCm: number; nearTop: boolean } | FitRefused;

const TEST_MINUTES = 240;
/** Above this share of the reach a hundredth of D/P is worth thousands of cm. */
const NEAR_TOP = 0.02;

const atFourHours = (test: MembraneTest, membrane: Membrane): DwellEnd | OutsideModel =>
  simulateDwell({
    bag: test.bag,
    fillMl: test.fillMl,
    dwellMinutes: TEST_MINUTES,
    residual: test.residual,
    plasmaMmolPerL: test.plasmaMmolPerL ?? MEAN_PLASMA,
    membrane,
  });

/**
 * A0/dx (cm) at which the model shows the measured D/P creatinine of a 4 h test, by bisection: D/P rises strictly with
 * A0/dx at 4 h (not at 8 h and beyond). Out of reach is refused with the range that can be reached, never clamped.
 * @param test the test with its own strength, fill, residual and plasma; D/P creatinine 0 to 1.1
 * @param base lymph flow and LpS that go with it
 */
export function fitAreaOverLength(test: MembraneTest, base: Membrane = populationMembrane()): AreaFit {
  const dOverP = (areaOverLengthCm: number): number => {
    const end = atFourHours(test, { ...base, areaOverLengthCm });
    return end.inside === 'model' ? end.dOverP.creatinine : Number.NaN;
  };
  let low: number = BOUNDS.areaOverLengthLeastCm;
  let high: number = BOUNDS.areaOverLengthMostCm;
  const least = dOverP(low);
  const most = dOverP(high);
  if (!(test.dOverPCreatinine >= least && test.dOverPCreatinine <= most)) {
    return {
      fitted: false,
      field: 'dOverPCreatinine',
      value: test.dOverPCreatinine,
      allowed: `${least.toFixed(3)} to ${most.toFixed(3)}`,
      why: 'The model cannot reach this D/P creatinine at 4 h with this strength and fill.',
    };
  }
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (dOverP(middle) < test.dOverPCreatinine) low = middle;
    else high = middle;
  }
  return { fitted: true, areaOverLengthCm: (low + high) / 2, nearTop: test.dOverPCreatinine > most - NEAR_TOP };
}

export type LpSFit = { fitted: true; membrane: Membrane; sensitivityPer100Ml: number; weight: number } | FitRefused;

const PRIOR_SD_LN_LPS = 0.25;

/**
 * LpS and A0/dx together, from a 3.86 % test with its drain. The raw fit is drawn towards the population by how much an
 * error of the drain moves it: ln LpS = ln 0.074 + w·(ln LpS_fit − ln 0.074), w = 0.25²/(0.25² + s²), then held
 * within 0.037 to 0.133 mL/min/mmHg.
 * @param drainedMl the drain of the test without flush, mL
 * @param drainSdMl one standard deviation of its error, mL, ≥ 0
 */
export function fitMembrane(test: MembraneTest, drainedMl: number, drainSdMl: number): LpSFit {
  const fitted = lpSFor(test, drainedMl);
  if (!fitted.fitted) return fitted;
  const higher = lpSFor(test, drainedMl + 100);
  const lower = lpSFor(test, drainedMl - 100);
  const lnOf = (fit: typeof fitted | FitRefused) => (fit.fitted ? Math.log(fit.lpS) : Math.log(fitted.lpS));
  const steps = Number(higher.fitted) + Number(lower.fitted);
  const sensitivityPer100Ml = steps === 0 ? Number.POSITIVE_INFINITY : Math.abs(lnOf(higher) - lnOf(lower)) / steps;

  const sd = (sensitivityPer100Ml * drainSdMl) / 100;
  const weight = PRIOR_SD_LN_LPS ** 2 / (PRIOR_SD_LN_LPS ** 2 + sd ** 2);
  const lnPopulation = Math.log(POPULATION.lpSMlPerMinPerMmHg.value);
  const drawn = Math.exp(lnPopulation + weight * (Math.log(fitted.lpS) - lnPopulation));
  const lpSMlPerMinPerMmHg = Math.min(BOUNDS.lpSMost, Math.max(BOUNDS.lpSLeast, drawn));
  const base = { ...populationMembrane(), lpSMlPerMinPerMmHg };
  const area = fitAreaOverLength(test, base);
  if (!area.fitted) return area;
  return {
    fitted: true,
    membrane: { ...base, areaOverLengthCm: area.areaOverLengthCm },
    sensitivityPer100Ml,
    weight,
  };
}

/** The LpS at which the model, refitted to the D/P creatinine, drains exactly this much. */
function lpSFor(test: MembraneTest, drainedMl: number): { fitted: true; lpS: number } | FitRefused {
  const drainAt = (lpS: number): number => {
    const base = { ...populationMembrane(), lpSMlPerMinPerMmHg: lpS };
    const area = fitAreaOverLength(test, base);
    if (!area.fitted) return Number.NaN;
    const end = atFourHours(test, { ...base, areaOverLengthCm: area.areaOverLengthCm });
    return end.inside === 'model' ? end.drainMl : Number.NaN;
  };
  let low = BOUNDS.lpSLeast / 2;
  let high = BOUNDS.lpSMost * 2;
  const least = drainAt(low);
  const most = drainAt(high);
  if (!(drainedMl >= least && drainedMl <= most)) {
    return {
      fitted: false,
      field: 'drainedMl',
      value: drainedMl,
      allowed: Number.isNaN(least + most)
        ? 'a D/P creatinine within reach'
        : `${Math.round(least)} to ${Math.round(most)} mL`,
      why: 'The model cannot reach this drain with this test.',
    };
  }
  while (high / low > 1.0005) {
    const middle = Math.sqrt(low * high);
    if (drainAt(middle) < drainedMl) low = middle;
    else high = middle;
  }
  return { fitted: true, lpS: Math.sqrt(low * high) };
}
