import type { IsoDate } from '../time/zone.ts';
import { formatIsoDate, formatMl } from '../words/numbers.ts';
import { solutionOf } from './formulary.ts';
import type { BagInHand, Solution } from './solution.ts';

export type BagVerdict = 'same' | 'inDate' | 'larger' | 'different' | 'tooSmall' | 'expired' | 'unknown';

/** One row of the check: what is prescribed beside what is in the hand. */
export type BagRow = {
  check: 'solution' | 'volume' | 'expiry';
  verdict: BagVerdict;
  /** As prescribed; null for the expiry, which nobody prescribes. */
  wanted: string | null;
  inHand: string;
  /** What to do about it, or null: "stop at 1,000 mL". */
  say: string | null;
};

const STOPS: readonly BagVerdict[] = ['different', 'tooSmall', 'expired'];

/** Whether a row stops the exchange: a mismatch needs another bag, a telephone order or a reasoned override. */
export const stops = (row: BagRow): boolean => STOPS.includes(row.verdict);

/**
 * Holds a bag against what is prescribed: solution, volume, expiry. A larger bag is right if the fill is stopped in
 * time; what is not known is said, never passed over.
 * @param todayIsoDate the date in the ward's zone; a bag may be used on its expiry date.
 */
export function checkBag(
  bag: BagInHand,
  wanted: { solutionId: string; fillMl: number },
  formulary: readonly Solution[],
  todayIsoDate: IsoDate,
): readonly BagRow[] {
  return [solutionRow(bag, wanted, formulary), volumeRow(bag, wanted), expiryRow(bag, todayIsoDate)];
}

function solutionRow(bag: BagInHand, wanted: { solutionId: string }, formulary: readonly Solution[]): BagRow {
  const inHand = solutionOf(formulary, bag.solutionId);
  const prescribed = solutionOf(formulary, wanted.solutionId);
  const same = bag.solutionId === wanted.solutionId;
  const verdict = !same ? 'different' : inHand === null ? 'unknown' : 'same';
  const say = inHand === null ? `The ward does not keep ${bag.solutionId}.` : null;
  return {
    check: 'solution',
    verdict,
    wanted: prescribed?.label ?? wanted.solutionId,
    inHand: inHand?.label ?? bag.solutionId,
    say,
  };
}

function volumeRow(bag: BagInHand, wanted: { fillMl: number }): BagRow {
  const row = { check: 'volume', wanted: formatMl(wanted.fillMl), inHand: formatMl(bag.labelledMl) } as const;
  if (bag.labelledMl === wanted.fillMl) return { ...row, verdict: 'same', say: null };
  if (bag.labelledMl > wanted.fillMl) return { ...row, verdict: 'larger', say: `Stop at ${formatMl(wanted.fillMl)}.` };
  const short = formatMl(wanted.fillMl - bag.labelledMl);
  return { ...row, verdict: 'tooSmall', say: `${short} less than prescribed.` };
}

function expiryRow(bag: BagInHand, today: IsoDate): BagRow {
  const row = { check: 'expiry', wanted: null } as const;
  const { expiresOn } = bag;
  if (expiresOn === null) return { ...row, verdict: 'unknown', inHand: 'not read', say: 'Read the expiry on the bag.' };
  // ISO dates compare as text.
  const inDate = expiresOn >= today;
  return { ...row, verdict: inDate ? 'inDate' : 'expired', inHand: formatIsoDate(expiresOn), say: null };
}
