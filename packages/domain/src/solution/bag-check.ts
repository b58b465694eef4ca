import type { EpochMs } from '../time/instant.ts';
import { dateAt, type IsoDate } from '../time/zone.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatIsoDate, formatMl } from '../words/numbers.ts';
import { solutionOf } from './formulary.ts';
import { recallOf, recallsOfUnreadLot, scannedLabel } from './recalled.ts';
import type { BagInHand, Solution } from './solution.ts';
import type { Supplies } from './supplies.ts';

export type BagVerdict =
  | 'same'
  | 'inDate'
  | 'larger'
  | 'different'
  | 'tooSmall'
  | 'expired'
  | 'notRecalled'
  | 'recalled'
  | 'unread'
  | 'unknown';

/** One row of the check: what is prescribed beside what is in the hand. */
export type BagRow = {
  check: 'solution' | 'volume' | 'expiry' | 'lot';
  verdict: BagVerdict;
  /** As prescribed; null for expiry and lot, which nobody prescribes. */
  wanted: string | null;
  inHand: string;
  /** What to do about it, or null: "stop at 1,000 mL". */
  say: string | null;
};

const STOPS: readonly BagVerdict[] = ['different', 'tooSmall', 'expired', 'recalled', 'unread'];

/** Whether a row stops the exchange: a mismatch needs another bag, a telephone order or a reasoned override. */
export const stops = (row: BagRow): boolean => STOPS.includes(row.verdict);

/**
 * Holds a bag against what is prescribed and against the recalls: solution, volume, expiry, lot. A larger bag is right if
 * the fill is stopped in time; what is not known is said, never passed over. The lot has a row where it was read, or where
 * a recall asks for it.
 * @param at a bag may be used on its expiry date, in the ward's zone at this instant
 */
export function checkBag(
  bag: BagInHand,
  wanted: { solutionId: string; fillMl: number },
  policy: Pick<WardPolicy, 'formulary' | 'supplies' | 'zone'>,
  at: EpochMs,
): readonly BagRow[] {
  const today = dateAt(at, policy.zone);
  return [
    solutionRow(bag, wanted, policy.formulary),
    volumeRow(bag, wanted),
    expiryRow(bag, today),
    ...lotRows(bag, policy.supplies, at, Number(today.slice(0, 4))),
  ];
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

function lotRows(bag: BagInHand, supplies: Supplies, at: EpochMs, thisYear: number): readonly BagRow[] {
  const row = { check: 'lot', wanted: null, inHand: bag.lot ?? 'not read' } as const;
  const gtin = scannedLabel(bag, thisYear)?.gtin ?? null;
  const recall = recallOf(bag, gtin, supplies, at);
  if (recall !== null) return [{ ...row, verdict: 'recalled', say: recall.reason }];
  if (bag.lot !== null) return [{ ...row, verdict: 'notRecalled', say: null }];
  const [unread] = recallsOfUnreadLot(bag, gtin, supplies, at);
  return unread === undefined
    ? []
    : [{ ...row, verdict: 'unread', say: `Lot ${unread.lot} is recalled: read the lot.` }];
}
