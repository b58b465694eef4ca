import { type Knowledge, SOLUTE_BANDS, ultrafiltrationBandMl } from './bands.ts';
import type { DayInput } from './day.ts';
import type { DwellEnd } from './dwell-model.ts';
import { GLUCOSE_G_PER_MMOL } from './parameters.ts';

/** An estimate and how far the truth may lie from it. */
export type Estimate = { value: number; low: number; high: number };

export type DayFigures = {
  ultrafiltrationMl: Estimate;
  /** Peritoneal urea alone. */
  weeklyKtV: Estimate;
  /** Peritoneal alone, L a week per 1.73 m². */
  creatinineClearanceLPerWeekPer173: Estimate;
  /** Out of the bags into the patient, g a day. */
  glucoseAbsorbedG: Estimate;
  /** Out of the patient, mmol a day. */
  sodiumRemovedMmol: Estimate;
  /** The most that is inside at any time of the day, residual included, mL. */
  mostInsideMl: Estimate;
};

/**
 * The sums of a steady day. Weekly Kt/V = 7·Σ(drain·D/P urea)/V; creatinine clearance = 7·Σ(drain·D/P)/1000 × 1.73/BSA;
 * absorbed and removed are counted over bag and drain.
 * The errors of one person's dwells come from the same membrane and do not cancel, so the half-widths are added.
 */
export function dayFigures(input: DayInput, ends: readonly DwellEnd[], knowledge: Knowledge): DayFigures {
  const solutes = SOLUTE_BANDS[knowledge];
  const ultrafiltration = new Sum();
  const ureaMl = new Sum();
  const creatinineMl = new Sum();
  const glucoseMmol = new Sum();
  const sodiumMmol = new Sum();
  let most: Estimate = { value: 0, low: 0, high: 0 };
  for (const [index, end] of ends.entries()) {
    const { bag, fillMl, dwellMinutes } = input.dwells[index]!;
    const bandMl = ultrafiltrationBandMl(
      dwellMinutes,
      knowledge,
      bag.icodextrinGPerL > 0 ? end.ultrafiltrationMl : null,
    );
    const { drainMl, dOverP, endMmolPerL } = end;
    const plasmaSodium = endMmolPerL.sodium / dOverP.sodium;
    ultrafiltration.add(end.ultrafiltrationMl, bandMl);
    ureaMl.add(drainMl * dOverP.urea, bandMl * dOverP.urea + drainMl * solutes.dOverPUrea);
    creatinineMl.add(drainMl * dOverP.creatinine, bandMl * dOverP.creatinine + drainMl * solutes.dOverPCreatinine);
    const glucoseInBag = (fillMl * bag.glucoseMmolPerL) / 1000;
    glucoseMmol.add(glucoseInBag - (drainMl * endMmolPerL.glucose) / 1000, glucoseInBag * solutes.glucoseShare);
    sodiumMmol.add(
      (drainMl * endMmolPerL.sodium - fillMl * bag.sodiumMmolPerL) / 1000,
      (bandMl * endMmolPerL.sodium + drainMl * solutes.dOverPSodium * plasmaSodium) / 1000,
    );
    if (end.mostInsideMl > most.value) {
      const filledMl = fillMl + input.residualMl;
      // Whatever the model says, the cavity once held fill and residual.
      const low = Math.max(filledMl, end.mostInsideMl - bandMl);
      most = { value: end.mostInsideMl, low, high: end.mostInsideMl + bandMl };
    }
  }
  return {
    ultrafiltrationMl: ultrafiltration.times(1),
    weeklyKtV: ureaMl.times(7 / input.ureaVolumeMl),
    creatinineClearanceLPerWeekPer173: creatinineMl.times((7 / 1000) * (1.73 / input.bodySurfaceM2)),
    glucoseAbsorbedG: glucoseMmol.times(GLUCOSE_G_PER_MMOL),
    sodiumRemovedMmol: sodiumMmol.times(1),
    mostInsideMl: most,
  };
}

/** A running sum with its half-width. */
class Sum {
  private value = 0;
  private halfWidth = 0;

  add(value: number, halfWidth: number): void {
    this.value += value;
    this.halfWidth += halfWidth;
  }

  times(factor: number): Estimate {
    const value = this.value * factor;
    const half = this.halfWidth * factor;
    return { value, low: value - half, high: value + half };
  }
}
