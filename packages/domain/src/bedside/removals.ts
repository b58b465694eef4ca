import type { Dwell } from '../dwell/dwell.ts';
import { HOUR_MS } from '../time/instant.ts';
import type { Removal } from './state.ts';

/** The longest span that a limit of removal may be set for: a week. */
const KEPT_MS = 168 * HOUR_MS;
/** An exchange every 34 minutes for a week: more are not given by hand. */
const MOST_KEPT = 300;

/** The list with a dwell as it now is: in its place by the end of its last drain, gone while it is drained again. */
export function withRemoval(removals: readonly Removal[], dwell: Dwell): readonly Removal[] {
  const others = removals.filter((one) => one.dwellId !== dwell.id);
  if (dwell.drainedAt === null) return others;
  const own: Removal = { dwellId: dwell.id, at: dwell.drainedAt, removedMl: dwell.drainMinusFillMl };
  const all = [...others, own].sort((a, b) => a.at - b.at || (a.dwellId < b.dwellId ? -1 : 1));
  const newestAt = all.at(-1)!.at;
  return all.filter((one) => one.at > newestAt - KEPT_MS).slice(-MOST_KEPT);
}
