import type { EpochMs } from '../time/instant.ts';
import type { Label } from './label/label.ts';
import { lotKey } from './label/lot.ts';
import { readLabel } from './label/read-label.ts';
import type { BagInHand } from './solution.ts';
import { type LotRecall, productOf, recallsAt, type Supplies } from './supplies.ts';

/** What the scanned label of a bag says; null where none was scanned, or it is none. */
export function scannedLabel(bag: BagInHand, thisYear: number): Label | null {
  if (bag.label === undefined) return null;
  const read = readLabel(bag.label, thisYear);
  return read.is === 'label' ? read.label : null;
}

/**
 * The recall in force that a bag falls under. Of a typed bag the product code is not known: then the recall of one
 * product holds for its whole solution, and for every bag of that lot where nobody has listed the product.
 * @returns null when there is none, or the lot was not read (see `recallsOfUnreadLot`)
 */
export function recallOf(bag: BagInHand, gtin: string | null, supplies: Supplies, at: EpochMs): LotRecall | null {
  const { lot } = bag;
  if (lot === null) return null;
  const sameLot = recallsAt(supplies, at).filter((recall) => lotKey(recall.lot) === lotKey(lot));
  return sameLot.find((recall) => concerns(recall, bag, gtin, supplies) !== 'no') ?? null;
}

/** Recalls that the bag may fall under, since nobody read its lot. */
export function recallsOfUnreadLot(
  bag: BagInHand,
  gtin: string | null,
  supplies: Supplies,
  at: EpochMs,
): readonly LotRecall[] {
  if (bag.lot !== null) return [];
  return recallsAt(supplies, at).filter((recall) => concerns(recall, bag, gtin, supplies) === 'yes');
}

/** Whether a recall is about this kind of bag, whatever its lot. */
function concerns(
  { of }: LotRecall,
  bag: BagInHand,
  gtin: string | null,
  supplies: Supplies,
): 'yes' | 'no' | 'notKnown' {
  if ('solutionId' in of) return of.solutionId === bag.solutionId ? 'yes' : 'no';
  if (gtin !== null) return of.gtin === gtin ? 'yes' : 'no';
  const product = productOf(supplies, of.gtin);
  if (product === null) return 'notKnown';
  return product.solutionId === bag.solutionId ? 'yes' : 'no';
}
