import type { Balance } from '../bedside/state.ts';
import type { Dwell } from '../dwell/dwell.ts';
import type { EpochMs } from '../time/instant.ts';

/** A fluid beside the dialysis: counts at its own time. */
export type OtherFluid = { at: EpochMs; direction: 'in' | 'out'; volumeMl: number };

/** So many missing volumes are listed, the newest; earlier ones are counted. */
const MOST_LISTED = 24;

/** Nothing counted yet between `from` and `to`. */
export const emptyBalance = (from: EpochMs, to: EpochMs): Balance => ({
  from,
  to,
  removedMl: 0,
  exchanges: 0,
  missing: [],
  missingEarlier: 0,
  otherInMl: null,
  otherOutMl: null,
});

/**
 * The balance from `from` up to, not including, `to`. A dwell counts, whole, where its last drain ended; an open dwell
 * counts nowhere: it stands as "inside now". Positive = removed. A dwell with a volume missing adds nothing and is named.
 */
export function balanceOf(
  dwells: readonly Dwell[],
  otherFluids: readonly OtherFluid[],
  from: EpochMs,
  to: EpochMs,
): Balance {
  const isIn = (at: EpochMs | null): boolean => at !== null && at >= from && at < to;
  let balance = emptyBalance(from, to);
  for (const dwell of dwells) if (isIn(dwell.drainedAt)) balance = plusDwell(balance, dwell);
  for (const fluid of otherFluids) if (isIn(fluid.at)) balance = plusFluid(balance, fluid);
  return balance;
}

/** Whether every volume is known; only then is the sum the balance. */
export const isComplete = (balance: Balance): boolean => balance.missing.length === 0 && balance.missingEarlier === 0;

/** Other fluids recorded, in − out, mL; null where nobody recorded any. */
export const otherFluidsMl = ({ otherInMl, otherOutMl }: Balance): number | null =>
  otherInMl === null && otherOutMl === null ? null : (otherInMl ?? 0) - (otherOutMl ?? 0);

/**
 * Dialysis and the other fluids that were recorded, together: positive = the body lost fluid, mL; null while the dialysis
 * part is incomplete.
 */
export const wholeBodyMl = (balance: Balance): number | null =>
  isComplete(balance) ? balance.removedMl - (otherFluidsMl(balance) ?? 0) : null;

/** A drained dwell counted in. The caller knows that it belongs here. */
export function plusDwell(balance: Balance, dwell: Dwell): Balance {
  const missing = [...balance.missing, ...missingOf(dwell)].sort((a, b) => a.at - b.at || (a.what < b.what ? -1 : 1));
  const unlisted = Math.max(0, missing.length - MOST_LISTED);
  return {
    ...balance,
    removedMl: balance.removedMl + (dwell.drainMinusFillMl ?? 0),
    exchanges: balance.exchanges + 1,
    missing: missing.slice(unlisted),
    missingEarlier: balance.missingEarlier + unlisted,
  };
}

/** The same dwell taken out again, because it was drained further or a volume of it changed. */
export function minusDwell(balance: Balance, dwell: Dwell): Balance {
  const missing = [...balance.missing];
  for (const { at, what } of missingOf(dwell)) {
    const index = missing.findIndex((one) => one.at === at && one.what === what);
    if (index >= 0) missing.splice(index, 1);
  }
  return {
    ...balance,
    removedMl: balance.removedMl - (dwell.drainMinusFillMl ?? 0),
    exchanges: balance.exchanges - 1,
    missing,
  };
}

export const plusFluid = (balance: Balance, fluid: OtherFluid): Balance =>
  fluid.direction === 'in'
    ? { ...balance, otherInMl: (balance.otherInMl ?? 0) + fluid.volumeMl }
    : { ...balance, otherOutMl: (balance.otherOutMl ?? 0) + fluid.volumeMl };

function missingOf(dwell: Dwell): readonly { at: EpochMs; what: 'drain' | 'fill' }[] {
  const at = dwell.drainedAt;
  if (at === null) return [];
  return [
    ...(dwell.drainedMl === null ? [{ at, what: 'drain' as const }] : []),
    ...(dwell.filledMl === null ? [{ at, what: 'fill' as const }] : []),
  ];
}
