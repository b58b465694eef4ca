import type { BedsideState } from '../bedside/state.ts';
import { solutionOf } from '../solution/formulary.ts';
import { type EpochMs, HOUR_MS } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';

const DAY_MS = 24 * HOUR_MS;

/** While it stands: since when icodextrin was last known inside, and until when; null = it is inside now. */
export type IcodextrinCaution = { lastAt: EpochMs; until: EpochMs | null };

/**
 * Icodextrin falsely raises glucose meters that use GDH-PQQ until two weeks after the last dwell (published; the ward
 * sets the days). It is derived from the dwells and stands by itself: nobody has to set it, and nobody can lift it.
 * @returns null when none was inside within that time, as far as is recorded.
 */
export function icodextrinCaution(state: BedsideState, at: EpochMs, policy: WardPolicy): IcodextrinCaution | null {
  const { cavity, icodextrinAt } = state;
  if (icodextrinAt === null) return null;
  const inside = cavity.state === 'holding' && cavity.fills.some((fill) => isIcodextrin(fill.solutionId, policy));
  if (inside) return { lastAt: icodextrinAt, until: null };
  const until = icodextrinAt + policy.settings.icodextrinCautionDays * DAY_MS;
  return at < until ? { lastAt: icodextrinAt, until } : null;
}

/** Whether a product is icodextrin by the ward's formulary; an unknown product is not taken for it. */
export const isIcodextrin = (solutionId: string | null, policy: Pick<WardPolicy, 'formulary'>): boolean =>
  (solutionOf(policy.formulary, solutionId)?.icodextrinGPerL ?? 0) > 0;
