import type { Problem } from '../record/problem.ts';
import type { EpochMs } from '../time/instant.ts';
import { formatMl } from '../words/numbers.ts';
import { solutionOf } from './formulary.ts';
import { hasRightCheckDigit } from './label/check-digit.ts';
import { lotKey, lotProblem } from './label/lot.ts';
import type { Solution } from './solution.ts';

/** What a product code stands for: one solution in one bag size. */
export type Product = {
  /** 14 digits. */
  gtin: string;
  solutionId: string;
  labelledMl: number;
};

/** One lot that is not to be used, of one product or of every product of a solution. */
export type LotRecall = {
  /** The entry that said so. */
  id: string;
  lot: string;
  of: { gtin: string } | { solutionId: string };
  reason: string;
  since: EpochMs;
  ended: { at: EpochMs; reason: string } | null;
};

/** What the hospital's wards know about the bags on their shelves. */
export type Supplies = { products: readonly Product[]; recalls: readonly LotRecall[] };

export const NO_SUPPLIES: Supplies = { products: [], recalls: [] };

export type SupplyChange =
  | { what: 'productListed'; product: Product }
  | { what: 'productDropped'; gtin: string; reason: string }
  | { what: 'lotRecalled'; lot: string; of: LotRecall['of']; reason: string }
  | { what: 'recallEnded'; recallId: string; reason: string };

/** The product of a code; null when nobody has listed it. */
export const productOf = ({ products }: Supplies, gtin: string | null): Product | null =>
  products.find((product) => product.gtin === gtin) ?? null;

/** Recalls that are in force at an instant. */
export const recallsAt = ({ recalls }: Supplies, at: EpochMs): readonly LotRecall[] =>
  recalls.filter(({ since, ended }) => since <= at && (ended === null || at < ended.at));

type Changed = { supplies: Supplies; problems: readonly Problem[] };

/**
 * The supplies after a change.
 * @param entry the entry that says it, and when it came
 * @returns the new supplies and no problems, or the old ones and every problem
 */
export function withSupplyChange(
  supplies: Supplies,
  change: SupplyChange,
  entry: { id: string; at: EpochMs },
  formulary: readonly Solution[],
): Changed {
  const problems = changeProblems(supplies, change, formulary);
  if (problems.length > 0) return { supplies, problems };
  const { products, recalls } = supplies;
  switch (change.what) {
    case 'productListed':
      return { supplies: { products: [...products, change.product], recalls }, problems };
    case 'productDropped':
      return { supplies: { products: products.filter(({ gtin }) => gtin !== change.gtin), recalls }, problems };
    case 'lotRecalled': {
      const { lot, of, reason } = change;
      const recall: LotRecall = { id: entry.id, lot, of, reason, since: entry.at, ended: null };
      return { supplies: { products, recalls: [...recalls, recall] }, problems };
    }
    case 'recallEnded': {
      const ended = { at: entry.at, reason: change.reason };
      const after = recalls.map((recall) => (recall.id === change.recallId ? { ...recall, ended } : recall));
      return { supplies: { products, recalls: after }, problems };
    }
  }
}

const problem = (code: string, field: string, value: unknown, allowed: string, message: string): Problem => ({
  code,
  field,
  value,
  allowed,
  message,
});

function changeProblems(supplies: Supplies, change: SupplyChange, formulary: readonly Solution[]): readonly Problem[] {
  switch (change.what) {
    case 'productListed':
      return [
        ...codeProblems('product.gtin', change.product.gtin),
        ...listingProblems(supplies, change.product, formulary),
      ];
    case 'productDropped':
      return [
        ...reasonProblems(change.reason),
        ...(productOf(supplies, change.gtin) === null
          ? [problem('product-unknown', 'gtin', change.gtin, 'a listed product', `${change.gtin} is not listed.`)]
          : []),
      ];
    case 'lotRecalled':
      return [...reasonProblems(change.reason), ...recallProblems(supplies, change, formulary)];
    case 'recallEnded':
      return [
        ...reasonProblems(change.reason),
        ...(supplies.recalls.some(({ id, ended }) => id === change.recallId && ended === null)
          ? []
          : [
              problem(
                'recall-unknown',
                'recallId',
                change.recallId,
                'a recall in force',
                'No such recall is in force.',
              ),
            ]),
      ];
  }
}

const reasonProblems = (reason: string): readonly Problem[] =>
  reason.trim() === '' ? [problem('missing', 'reason', reason, 'some words', 'reason is empty.')] : [];

function codeProblems(field: string, gtin: string): readonly Problem[] {
  const allowed = '14 digits with their check digit';
  if (/^\d{14}$/.test(gtin) && hasRightCheckDigit(gtin)) return [];
  return [problem('gtin', field, gtin, allowed, `The product code is ${gtin}; allowed is ${allowed}.`)];
}

/** One code stands for one product: what is listed wrong is dropped, with a reason, before it is listed anew. */
function listingProblems(supplies: Supplies, product: Product, formulary: readonly Solution[]): readonly Problem[] {
  const { gtin, solutionId, labelledMl } = product;
  if (productOf(supplies, gtin) !== null) {
    return [problem('product-listed', 'product.gtin', gtin, 'a code that is not listed', `${gtin} is listed already.`)];
  }
  const solution = solutionOf(formulary, solutionId);
  if (solution === null) return [unknownSolution('product.solutionId', solutionId)];
  if (solution.bagMl.includes(labelledMl)) return [];
  const allowed = solution.bagMl.map(formatMl).join(', ');
  const message = `The bag holds ${formatMl(labelledMl)}; of this solution the hospital keeps ${allowed}.`;
  return [problem('bag-size', 'product.labelledMl', labelledMl, allowed, message)];
}

const unknownSolution = (field: string, solutionId: string): Problem =>
  problem('unknown-solution', field, solutionId, 'a solution of the formulary', `There is no solution ${solutionId}.`);

function recallProblems(
  supplies: Supplies,
  { lot, of }: Extract<SupplyChange, { what: 'lotRecalled' }>,
  formulary: readonly Solution[],
): readonly Problem[] {
  const wrongLot = lotProblem('lot', lot);
  const wrongProduct =
    'gtin' in of
      ? codeProblems('of.gtin', of.gtin)
      : solutionOf(formulary, of.solutionId) === null
        ? [unknownSolution('of.solutionId', of.solutionId)]
        : [];
  const same = supplies.recalls.some(
    (recall) => recall.ended === null && lotKey(recall.lot) === lotKey(lot) && isSameProduct(recall.of, of),
  );
  return [
    ...(wrongLot === null ? [] : [wrongLot]),
    ...wrongProduct,
    ...(same
      ? [problem('recalled-already', 'lot', lot, 'a lot without a recall', 'This lot is recalled already.')]
      : []),
  ];
}

const isSameProduct = (one: LotRecall['of'], other: LotRecall['of']): boolean =>
  'gtin' in one
    ? 'gtin' in other && one.gtin === other.gtin
    : 'solutionId' in other && one.solutionId === other.solutionId;
