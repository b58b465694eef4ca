import { holdsUndrained } from '../bedside/fluid.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Cavity } from '../cavity/cavity.ts';
import type { Additive } from '../prescription/additive.ts';
import { leastDwellMinutes } from '../prescription/additive.ts';
import { additivesWords } from '../prescription/additive-words.ts';
import { type EpochMs, plusMinutes } from '../time/instant.ts';
import { formatClock } from '../words/numbers.ts';

/** What was added to the fluid inside, in the order of the fills. */
export const additivesInside = (cavity: Cavity): readonly Additive[] =>
  cavity.state === 'holding' ? cavity.fills.flatMap(({ additives }) => additives) : [];

/** Until when what was added must dwell at the least; null where nothing must, or the fill's time is not known. */
export function staysUntil(cavity: Cavity): EpochMs | null {
  if (cavity.state !== 'holding') return null;
  const ends = cavity.fills.flatMap(({ endedAt, additives }) => {
    const least = leastDwellMinutes(additives);
    return endedAt === null || least === 0 ? [] : [plusMinutes(endedAt, least)];
  });
  return ends.length === 0 ? null : Math.max(...ends);
}

/** "+ vancomycin 1 g, stays to 16:05", which is the least; null where nothing was added. */
export function additivesInsideWords(cavity: Cavity, clock: (at: EpochMs) => string): string | null {
  const additives = additivesInside(cavity);
  if (additives.length === 0) return null;
  const until = staysUntil(cavity);
  return `+ ${additivesWords(additives)}${until === null ? '' : `, stays to ${clock(until)}`}`;
}

/**
 * What a drain at an instant would end too early: "In since 10:05, vancomycin 1 g must stay until 16:05."
 * @returns null where nothing must stay, or a drain has already begun on it
 */
export function tooEarlyToDrain(state: BedsideState, at: EpochMs, zone: string): string | null {
  const until = staysUntil(state.cavity);
  if (until === null || at >= until || !holdsUndrained(state) || state.cavity.state !== 'holding') return null;
  const staying = state.cavity.fills.flatMap(({ additives }) => additives.filter((one) => one.minimumDwellMinutes));
  const { since } = state.cavity;
  return `In since ${formatClock(since, zone)}, ${additivesWords(staying)} must stay until ${formatClock(until, zone)}.`;
}
