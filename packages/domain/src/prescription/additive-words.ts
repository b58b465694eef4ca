import { formatMinutes } from '../words/numbers.ts';
import type { Additive } from './additive.ts';

/** An amount with a comma from 1,000, a leading zero and no trailing one (ISMP error-prone list). */
const AMOUNT = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 3 });

/** "vancomycin 1 g", "heparin 1,000 units". */
const additiveWords = ({ what, amount, unit }: Additive): string =>
  amount === null ? what : `${what} ${AMOUNT.format(amount)}${unit === null ? '' : ` ${unit}`}`;

/** "vancomycin 1 g + heparin 1,000 units"; '' where nothing is added. */
export const additivesWords = (additives: readonly Additive[]): string => additives.map(additiveWords).join(' + ');

/** As an order says it: "vancomycin 1 g, to dwell 6 h at the least". */
function orderedAdditiveWords(additive: Additive): string {
  const { minimumDwellMinutes } = additive;
  const least = minimumDwellMinutes ? `, to dwell ${formatMinutes(minimumDwellMinutes)} at the least` : '';
  return `${additiveWords(additive)}${least}`;
}

/** All of an order's: "vancomycin 1 g, to dwell 6 h at the least + heparin 1,000 units". */
export const orderedAdditivesWords = (additives: readonly Additive[]): string =>
  additives.map(orderedAdditiveWords).join(' + ');
