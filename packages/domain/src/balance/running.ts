import type { Balance } from '../bedside/state.ts';
import { otherFluidsMl, wholeBodyMl } from './balance.ts';

/** The running balance at the end of a period. */
export type RunningBalance = {
  /** Whole body, mL, positive = removed; null = not known at its end. */
  runningMl: number | null;
  /** This period or one before it is incomplete: the sum lacks it. */
  sinceGap: boolean;
};

/**
 * The running whole-body balance over periods that join one another, such as ward days. It begins with the first period in
 * which there was anything: before that nothing is known, which is not even. An incomplete period has none, and those
 * after it say that they lack it: never a sum over a gap in silence.
 *
 * @param periods oldest first
 * @returns one for each period
 */
export function runningBalance(periods: readonly Balance[]): readonly RunningBalance[] {
  let sumMl = 0;
  let sinceGap = false;
  let hasBegun = false;
  return periods.map((period) => {
    hasBegun ||= period.exchanges > 0 || otherFluidsMl(period) !== null;
    if (!hasBegun) return { runningMl: null, sinceGap };
    const periodMl = wholeBodyMl(period);
    sinceGap ||= periodMl === null;
    if (periodMl !== null) sumMl += periodMl;
    return { runningMl: periodMl === null ? null : sumMl, sinceGap };
  });
}
