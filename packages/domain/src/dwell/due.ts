import type { BedsideState, Due } from '../bedside/state.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { dueDrain } from './due-drain.ts';
import { dueFill } from './due-fill.ts';

/**
 * When the next thing at this bed is due, as instants: the drain of what is inside, else the fill of an empty cavity,
 * else the review of a hold. It does not depend on now. An unknown cavity counts as holding: it may hold fluid.
 * @returns null when nothing is due: no stay, a drain or fill already under way, or nothing prescribed.
 */
export function dueOf(state: BedsideState, policy: WardPolicy): Due | null {
  if (state.stay === null) return null;
  const visit = state.visit?.state;
  if (visit === 'draining' || visit === 'drained' || visit === 'filling') return null;
  return state.cavity.state === 'empty' ? dueFill(state, policy) : dueDrain(state, policy);
}
