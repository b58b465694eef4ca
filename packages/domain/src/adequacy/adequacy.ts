import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { DAY_TO_DAY_CV, type DayToDay, dayToDayBand } from './band.ts';
import type { Body } from './body.ts';
import { type BodySurfaceFormula, bodySurfaceM2, perStandardSurface } from './body-surface.ts';
import { type BodyWaterFormula, bodyWaterL } from './body-water.ts';
import { checkCollection, checkPlasma, oddSamples } from './checks.ts';
import { type Collection, clearanceLPerWeek, mlPerMinute, type Plasma } from './clearance.ts';
import { type Standing, standingIssues } from './standing.ts';

/** Urine: none is a finding, not collected is a gap. The two are never the same number. */
export type Urine = { state: 'none' } | { state: 'notCollected' } | { state: 'collected'; collection: Collection };

export type AdequacyInput = {
  body: Body;
  bodyWaterFormula: BodyWaterFormula;
  bodySurfaceFormula: BodySurfaceFormula;
  dialysate: Collection;
  urine: Urine;
  plasma: Plasma;
  standing: Standing;
};

/** A weekly quantity with its day-to-day band. */
export type WithBand = { value: number; band: DayToDay };

/** Renal and total figures are null, never zero, when urine was not collected. */
export type Adequacy = {
  bodyWaterL: number;
  bodySurfaceM2: number;
  weeklyKtV: { peritoneal: WithBand; renal: number | null; total: WithBand | null };
  /** Litres a week; renal is the mean of urea and creatinine clearance (Bargman, J Am Soc Nephrol 2001;12:2158). */
  creatinineClearance: {
    peritonealLPerWeek: number;
    renalLPerWeek: number | null;
    peritonealLPerWeekPer173: WithBand;
    totalLPerWeekPer173: WithBand | null;
  };
  /** mL/min */
  residualRenal: { ureaMlPerMin: number; creatinineMlPerMin: number; meanMlPerMin: number } | null;
};

/**
 * Weekly Kt/V of urea and creatinine clearance from a day's dialysate, urine and blood. Clearances of the compartments
 * add. Sources: KDOQI 2006 (sum, residual function); formulas from memory of the standard texts.
 * @returns the figures, with odd samples and circumstances as issues beside them; or why there are none
 */
export const adequacyOf = (input: AdequacyInput): Computed<Adequacy> => {
  const { body, dialysate, urine, plasma } = input;
  const water = bodyWaterL(input.bodyWaterFormula, body);
  const surface = bodySurfaceM2(input.bodySurfaceFormula, body);
  const sizeProblems = water.value === null ? water.issues : surface.value === null ? surface.issues : [];
  return unlessRefused(
    [
      ...sizeProblems,
      ...checkCollection('dialysate', dialysate),
      ...(urine.state === 'collected' ? checkCollection('urine', urine.collection) : []),
      ...checkPlasma(plasma),
    ],
    () => {
      const litres = water.value!;
      const peritoneal = clearancesOf(dialysate, plasma);
      const renal = renalClearances(urine, plasma);
      const renalMean = renal && (renal.ureaLPerWeek + renal.creatinineLPerWeek) / 2;
      const per173 = (clearance: number): number => perStandardSurface(clearance, surface.value!);
      const banded = (value: number, cv: number): WithBand => ({ value, band: dayToDayBand(value, cv) });
      return computed<Adequacy>(
        {
          bodyWaterL: litres,
          bodySurfaceM2: surface.value!,
          weeklyKtV: {
            peritoneal: banded(peritoneal.ureaLPerWeek / litres, DAY_TO_DAY_CV.peritonealKtV),
            renal: renal && renal.ureaLPerWeek / litres,
            total: renal && banded((peritoneal.ureaLPerWeek + renal.ureaLPerWeek) / litres, DAY_TO_DAY_CV.totalKtV),
          },
          creatinineClearance: {
            peritonealLPerWeek: peritoneal.creatinineLPerWeek,
            renalLPerWeek: renalMean,
            peritonealLPerWeekPer173: banded(
              per173(peritoneal.creatinineLPerWeek),
              DAY_TO_DAY_CV.peritonealCreatinineClearance,
            ),
            totalLPerWeekPer173:
              renalMean === null
                ? null
                : banded(per173(peritoneal.creatinineLPerWeek + renalMean), DAY_TO_DAY_CV.totalCreatinineClearance),
          },
          residualRenal: renal && {
            ureaMlPerMin: mlPerMinute(renal.ureaLPerWeek),
            creatinineMlPerMin: mlPerMinute(renal.creatinineLPerWeek),
            meanMlPerMin: mlPerMinute((renal.ureaLPerWeek + renal.creatinineLPerWeek) / 2),
          },
        },
        [
          ...oddSamples(dialysate, plasma, renal),
          ...(urine.state === 'notCollected' ? [URINE_NOT_COLLECTED] : []),
          ...standingIssues(input.standing),
        ],
      );
    },
  );
};

type Clearances = { ureaLPerWeek: number; creatinineLPerWeek: number };

const clearancesOf = (collection: Collection, plasma: Plasma): Clearances => ({
  ureaLPerWeek: clearanceLPerWeek(collection, collection.ureaMmolPerL, plasma.ureaMmolPerL),
  creatinineLPerWeek: clearanceLPerWeek(collection, collection.creatinineUmolPerL, plasma.creatinineUmolPerL),
});

const renalClearances = (urine: Urine, plasma: Plasma): Clearances | null => {
  if (urine.state === 'notCollected') return null;
  if (urine.state === 'none') return { ureaLPerWeek: 0, creatinineLPerWeek: 0 };
  return clearancesOf(urine.collection, plasma);
};

const URINE_NOT_COLLECTED = {
  code: 'urine-not-collected',
  field: 'urine',
  value: null,
  allowed: 'a 24 h collection, or the statement that there is none',
  message: 'Urine was not collected: renal and total figures are not known',
} as const;
