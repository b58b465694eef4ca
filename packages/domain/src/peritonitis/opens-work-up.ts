import type { BedsideState } from '../bedside/state.ts';
import type { DrainOut, Dwell } from '../dwell/dwell.ts';
import { KEEP_THE_BAG } from '../effluent/effluent.ts';
import type { Payloads } from '../record/entry.ts';
import { minutesBetween } from '../time/instant.ts';
import { openWorkUp, type WorkUp } from './work-up.ts';

/** The drains that the bedside still holds, newest first, each with its dwell; imported history is none. */
export function drainsHeld(state: BedsideState): readonly { drain: DrainOut; dwell: Dwell }[] {
  const dwells = [
    ...(state.openDwell ? [state.openDwell] : []),
    ...state.lastDwells.filter((dwell) => !dwell.imported),
  ];
  return dwells
    .flatMap((dwell) => dwell.drains.map((drain) => ({ drain, dwell })))
    .sort((a, b) => b.drain.startedAt - a.drain.startedAt);
}

/** Whether it must be taken for peritonitis, or for bowel or bile, until excluded. */
const isSuspect = ({ appearance }: Pick<DrainOut, 'appearance'>): boolean =>
  appearance.some((one) => KEEP_THE_BAG.includes(one));

/**
 * Whether a work-up speaks for a drain too, so that it opens none and is no new alarm: the drain came before the work-up
 * ended, or peritonitis was found and no drain has been seen free of it since. (The tool's own rule.)
 */
function speaksFor(workUp: WorkUp, drain: DrainOut, held: readonly { drain: DrainOut }[]): boolean {
  const { closed } = workUp;
  if (closed === null || drain.startedAt <= closed.at) return true;
  if (closed.conclusion !== 'peritonitis') return false;
  const clearedSince = held.some(
    ({ drain: other }) =>
      other.startedAt > closed.at &&
      other.startedAt < drain.startedAt &&
      other.appearance.length > 0 &&
      !isSuspect(other),
  );
  return !clearedSince;
}

/** Whether a suspect drain is one more of a suspicion that is known, and not the one that raised it. */
export function isKnownSuspicion(state: BedsideState, drain: DrainOut): boolean {
  const held = drainsHeld(state);
  return state.workUps.some((workUp) => workUp.drainId !== drain.entryId && speaksFor(workUp, drain, held));
}

/** How long the fluid of a drain had dwelt, from the end of its last fill, min; null = not known. */
export const dwellMinutesBefore = (
  drain: Pick<DrainOut, 'startedAt'>,
  { fills }: Pick<Dwell, 'fills'>,
): number | null => {
  const filledAt = fills.at(-1)?.endedAt ?? null;
  return filledAt === null || filledAt > drain.startedAt ? null : Math.round(minutesBetween(filledAt, drain.startedAt));
};

/** The work-up that the tool must open now: for the first suspect drain that none speaks for. null = none. */
export function workUpToOpen(state: BedsideState): Payloads['workUpOpened'] | null {
  if (state.stay === null || openWorkUp(state.workUps) !== null) return null;
  const held = drainsHeld(state);
  const found = held.findLast(
    ({ drain }) => isSuspect(drain) && !state.workUps.some((workUp) => speaksFor(workUp, drain, held)),
  );
  if (found === undefined) return null;
  const { drain, dwell } = found;
  const dwellMinutes = dwellMinutesBefore(drain, dwell);
  return { drainId: drain.entryId, drainStartedAt: drain.startedAt, appearance: drain.appearance, dwellMinutes };
}

/** The dwell length of a drain that the bedside still holds, min; null = not known. */
export function dwellMinutesOfDrain(state: BedsideState, drainId: string): number | null {
  const found = drainsHeld(state).find(({ drain }) => drain.entryId === drainId);
  return found === undefined ? null : dwellMinutesBefore(found.drain, found.dwell);
}
