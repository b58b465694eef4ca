import { type LotRecall, type Product, STANDARD_FORMULARY, type SupplyChange } from '@slackwater/domain';
import { checkDigitOf } from '@slackwater/domain/solution/label/check-digit';

/** 952 is GS1's prefix for demonstrations: no product on any shelf has such a code. */
const PREFIX = '095212340';

/** A code for every bag of the formulary. */
export const DEMONSTRATION_PRODUCTS: readonly Product[] = STANDARD_FORMULARY.flatMap((solution) =>
  solution.bagMl.map((labelledMl) => ({ solutionId: solution.id, labelledMl })),
).map((bag, index) => {
  const digits = `${PREFIX}${String(index + 1).padStart(4, '0')}`;
  return { gtin: `${digits}${checkDigitOf(digits)}`, ...bag };
});

/** A lot of a solution that nobody on the ward is prescribed. */
const RECALLED_SOLUTION: LotRecall['of'] = { solutionId: 'bicarbonate-glucose-3.86' };

/** What the charge nurse has said about products and lots. */
export const DEMONSTRATION_SUPPLIES: readonly SupplyChange[] = [
  ...DEMONSTRATION_PRODUCTS.map((product) => ({ what: 'productListed' as const, product })),
  {
    what: 'lotRecalled',
    lot: 'K7190-4',
    of: RECALLED_SOLUTION,
    reason: 'Demonstration: outlet seals that do not break',
  },
];
