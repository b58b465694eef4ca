import type { Balance } from '../bedside/state.ts';
import { formatClock, formatMl } from '../words/numbers.ts';
import { isComplete } from './balance.ts';

/** A balance of one figure as a word and a positive number; positive = removed: `Removed 250 mL`, `Retained 150 mL`. */
export function removedWords(removedMl: number): string {
  const ml = Math.round(removedMl);
  if (ml === 0) return 'Even';
  return ml > 0 ? `Removed ${formatMl(ml)}` : `Retained ${formatMl(-ml)}`;
}

/**
 * A balance in words, never a bare sign: what was removed or retained, or what is missing and when, in the ward's zone:
 * `Incomplete: no drain volume at 06:10`.
 */
export function balanceWords(balance: Balance, zone: string): string {
  if (!isComplete(balance)) return `Incomplete: ${missingWords(balance, zone)}`;
  return balance.exchanges === 0 ? 'No exchange' : removedWords(balance.removedMl);
}

function missingWords(balance: Balance, zone: string): string {
  const newest = balance.missing.at(-1);
  if (newest === undefined) return `${balance.missingEarlier} volumes missing`;
  const others = balance.missing.length - 1 + balance.missingEarlier;
  const words = `no ${newest.what} volume at ${formatClock(newest.at, zone)}`;
  return others === 0 ? words : `${words} and ${others} more missing`;
}
