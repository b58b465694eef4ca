import { emptyBalance } from '../balance/balance.ts';
import type { EpochMs } from '../time/instant.ts';
import { shiftAt, wardDayAt } from '../ward/day.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Balance, BedsideState } from './state.ts';

/**
 * Changes the balances that an instant belongs to. Day and shift are those of the newest dwell or fluid, so the state
 * does not depend on now: a board that is past their `to` shows the new ones as empty. What is older than they are
 * counts in the stay alone.
 */
export function inTime(
  state: BedsideState,
  at: EpochMs,
  change: (balance: Balance) => Balance,
  policy: WardPolicy,
): BedsideState {
  const day = bucketAt(state.day, at, () => wardDayAt(at, policy));
  const shift = bucketAt(state.shift, at, () => shiftAt(at, policy));
  const { stayBalance } = state;
  const inStay = at >= stayBalance.from;
  return {
    ...state,
    day: holds(day, at) ? change(day) : day,
    shift: holds(shift, at) ? change(shift) : shift,
    stayBalance: inStay ? change({ ...stayBalance, to: Math.max(stayBalance.to, at) }) : stayBalance,
  };
}

const holds = (bucket: Balance, at: EpochMs): boolean => at >= bucket.from && at < bucket.to;

/** The bucket itself, or a new one when the instant lies beyond it. */
function bucketAt(bucket: Balance, at: EpochMs, next: () => { from: EpochMs; to: EpochMs }): Balance {
  if (at < bucket.to) return bucket;
  const { from, to } = next();
  return emptyBalance(from, to);
}
