import type { Limits } from '../statistics/limits.ts';
import { type Computed, computed, refused } from '../units/computed.ts';
import type { Rate } from './rates.ts';

/** ISPD 2022: at most 0.40 episodes per patient-year of a programme. */
const PERITONITIS_TARGET_PER_YEAR = 0.4;

/** Whose days stand under the rate: a programme's (home and hospital), or only those spent on the ward. */
export type Denominator = 'programme' | 'ward';

/** How an estimate stands to a target; `withinLimits`: the target lies between the limits, so nothing is shown either way. */
export type TargetVerdict = 'under' | 'over' | 'withinLimits';

/**
 * Holds a programme's rate against the target. A ward's own days are the wrong denominator (30 admissions *for*
 * peritonitis on 24 beds would read 1.47), so with them there is no verdict.
 */
export const rateAgainstTarget = (
  rate: Rate,
  denominator: Denominator,
  targetPerYear: number = PERITONITIS_TARGET_PER_YEAR,
): Computed<TargetVerdict> => {
  if (denominator === 'ward') {
    return refused({
      code: 'wrong-denominator',
      field: 'denominator',
      value: denominator,
      allowed: 'programme: start and stop of dialysis of every patient, home and hospital',
      message: "The target is a programme's: it is not held against the days of a ward",
    });
  }
  return computed(limitsAgainst(rate.perYear, targetPerYear));
};

/** Shares that a programme aims at: more than 80 % free of peritonitis in a year (ISPD 2022), less than 15 % of cultures
 * negative (from memory). */
export const SHARE_TARGETS = { peritonitisFreeOver: 0.8, cultureNegativeUnder: 0.15 } as const;

/** Where an estimate stands to a target, as far as its limits allow to say. */
export const limitsAgainst = ({ lower, upper }: Limits, target: number): TargetVerdict =>
  upper <= target ? 'under' : lower > target ? 'over' : 'withinLimits';
