import type { BagInHand, Solution } from '@slackwater/domain';
import { type BagRow, stops } from '@slackwater/domain/solution/bag-check';
import { solutionOf } from '@slackwater/domain/solution/formulary';

const strengthOf = (id: string, formulary: readonly Solution[]): string => solutionOf(formulary, id)?.strength ?? id;

/** Why a row of the check stops, in one sentence. */
const stopWords = (row: BagRow, bag: BagInHand, wantedId: string, formulary: readonly Solution[]): string => {
  if (row.check === 'expiry') return `Expired ${row.inHand}.`;
  if (row.verdict === 'recalled') return `Lot ${row.inHand} is recalled: ${row.say}.`;
  if (row.check === 'lot') return row.say ?? 'The lot is not read.';
  if (row.check === 'volume') return `${row.inHand} in hand, ${row.wanted} prescribed.`;
  return `${strengthOf(bag.solutionId, formulary)} in hand, ${strengthOf(wantedId, formulary)} prescribed.`;
};

/** All that stops a bag, each in one sentence; '' where nothing does. */
export const allStopWords = (
  rows: readonly BagRow[],
  bag: BagInHand,
  wanted: { solutionId: string },
  formulary: readonly Solution[],
): string =>
  rows
    .filter(stops)
    .map((row) => stopWords(row, bag, wanted.solutionId, formulary))
    .join(' ');
