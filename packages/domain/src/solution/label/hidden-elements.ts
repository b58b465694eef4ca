import { hasRightCheckDigit } from './check-digit.ts';
import { readLabelDate } from './dates.ts';
import { identifierAt } from './identifiers.ts';

/** Lot and serial number: the values of varying length that stand before others on a bag. */
const VARYING: ReadonlySet<string> = new Set(['10', '21']);

/** What can be known again inside another value: a real date, or a product code with its right check digit. */
const KNOWN_AGAIN: readonly { ai: string; length: number; fits: (digits: string) => boolean }[] = [
  // A month and a day that exist; which century does not matter for that but on a leap day.
  { ai: '17', length: 6, fits: (digits) => 'date' in readLabelDate(digits, 2000) },
  { ai: '11', length: 6, fits: (digits) => 'date' in readLabelDate(digits, 2000) },
  { ai: '01', length: 14, fits: hasRightCheckDigit },
];

/**
 * Whether a lot or serial number seems to run on into an element that the label has nowhere else, because the separator
 * between them was not printed or not sent: `AB12317260531` may be lot `AB123` and expiry 260531. Only a person who looks
 * at the print can tell. What cannot be known again (a lot that runs on into a serial number) is not found here: the lot
 * is shown to be compared with the print.
 * @param read identifiers that the label has already
 * @returns the part that looks like the next element, or null
 */
export function hidesElements(ai: string, value: string, read: ReadonlySet<string>): string | null {
  if (!VARYING.has(ai)) return null;
  for (let at = 1; at < value.length; at += 1) {
    for (const known of KNOWN_AGAIN) {
      if (read.has(known.ai) || !value.startsWith(known.ai, at)) continue;
      const end = at + 2 + known.length;
      const digits = value.slice(at + 2, end);
      if (digits.length < known.length || !/^\d+$/.test(digits) || !known.fits(digits)) continue;
      if (end === value.length || identifierAt(value, end) !== null) return value.slice(at);
    }
  }
  return null;
}
