import type { FillInside } from '../cavity/cavity.ts';
import { minutesBetween } from '../time/instant.ts';
import type { WardSettings } from '../ward/settings.ts';

/** Minutes in which a fill of so much should have run in: the ward's minutes are for 2,000 mL, so it is a flow. */
export const slowFillAfterMinutes = (
  fillMl: number,
  { slowFillMinutes }: Pick<WardSettings, 'slowFillMinutes'>,
): number => (slowFillMinutes * fillMl) / 2000;

/** Whether the inflow of the same dwell was poor too. */
export type FlowVerdict = 'bothWays' | 'outflowOnly' | 'notKnown';

/**
 * At a poor outflow: was the fill of that dwell slow as well, by its flow in mL a minute? A fill whose volume or times
 * are not recorded tells nothing.
 * (Both ways poor = clot or kink; only the outflow = position, bowels, omental wrap: common practice, teaching texts.)
 */
export function flowVerdict(
  fills: readonly Pick<FillInside, 'filledMl' | 'startedAt' | 'endedAt'>[],
  settings: Pick<WardSettings, 'slowFillMinutes'>,
): FlowVerdict {
  const slow = fills.map(({ filledMl, startedAt, endedAt }) =>
    filledMl === null || startedAt === null || endedAt === null
      ? null
      : minutesBetween(startedAt, endedAt) > slowFillAfterMinutes(filledMl, settings),
  );
  if (slow.includes(true)) return 'bothWays';
  return slow.length === 0 || slow.includes(null) ? 'notKnown' : 'outflowOnly';
}

/** What the verdict points to, in words. */
export function flowVerdictWords(verdict: unknown): string {
  if (verdict === 'bothWays') return 'The fill ran slowly too: poor both ways points to a clot or a kink.';
  const outflow = 'position, bowels, omentum round the catheter';
  if (verdict === 'outflowOnly') return `The fill ran well: only the outflow is poor, so ${outflow}.`;
  return `How the fill ran is not known. Poor both ways: clot or kink. Only the outflow poor: ${outflow}.`;
}
