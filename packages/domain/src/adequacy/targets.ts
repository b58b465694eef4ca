import type { Adequacy } from './adequacy.ts';

/**
 * Weekly total Kt/V that small-solute guidelines ask for at least: 1.7 (KDOQI 2006, second hand); ISPD 2020 is
 * goal-directed and says that no one number guarantees quality. Residual function counts above 100 mL of urine a day
 * (KDOQI 2006). Both are settings of the ward.
 */
const WEEKLY_KTV_TARGET = 1.7;
const URINE_COUNTS_ABOVE_ML_PER_DAY = 100;

export type AgainstTarget = {
  /** The Kt/V that was held against the target; null = not known. */
  heldAgainst: number | null;
  residualCounted: boolean;
  /** `withinBand`: the target lies inside the day-to-day band, so another day may say the opposite. */
  verdict: 'reached' | 'notReached' | 'withinBand' | 'notKnown';
};

/**
 * Holds a result against the target, with its band.
 * @param urineMlPerDay 0 for none, null for not collected: then only the peritoneal part is known, and only a
 * peritoneal part that reaches the target alone gives a verdict
 */
export const againstTarget = (
  { weeklyKtV }: Pick<Adequacy, 'weeklyKtV'>,
  urineMlPerDay: number | null,
  target: number = WEEKLY_KTV_TARGET,
): AgainstTarget => {
  const residualCounted =
    weeklyKtV.total !== null && urineMlPerDay !== null && urineMlPerDay > URINE_COUNTS_ABOVE_ML_PER_DAY;
  const { value, band } = residualCounted && weeklyKtV.total ? weeklyKtV.total : weeklyKtV.peritoneal;
  const verdict = band.lower >= target ? 'reached' : band.upper < target ? 'notReached' : 'withinBand';
  const known = urineMlPerDay !== null || verdict === 'reached';
  return { heldAgainst: known ? value : null, residualCounted, verdict: known ? verdict : 'notKnown' };
};
