import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { minutesBetween } from '../time/instant.ts';
import { type JudgeContext, refusal } from './judge-types.ts';

/** What is entered afterwards lies further back than anything that the bedside enters as it happens (10 min). */
export const AFTERWARDS_MINUTES = 15;

type When = Pick<Draft, 'happenedAt'>;
type Now = Pick<JudgeContext, 'now'>;

/** Whether an act lies so far back that nobody can be stopped or asked at the bed any more: it is told, not done. */
export const isAfterwards = ({ happenedAt }: When, { now }: Now): boolean =>
  minutesBetween(happenedAt, now) >= AFTERWARDS_MINUTES;

/** What says of itself that it is entered afterwards was done a while ago: else the checks of the bedside hold. */
export function markProblems(mark: unknown, when: When, context: Now): readonly Problem[] {
  if (mark === undefined || isAfterwards(when, context)) return [];
  const allowed = `at least ${AFTERWARDS_MINUTES} min after it happened`;
  const message = `It happens now: only what was done ${AFTERWARDS_MINUTES} min ago and more is entered afterwards.`;
  return [refusal('not-afterwards', message, 'payload.afterwards', when.happenedAt, allowed)];
}

/**
 * "Nobody watched it" is a word about the past: at the bed one looks, and says what was seen.
 * @param field path of what is null
 * @param what what there was to look at
 */
export function notWatchedProblems(field: string, what: string, when: When, context: Now): readonly Problem[] {
  if (isAfterwards(when, context)) return [];
  const allowed = `what was seen; null, nobody watched, only ${AFTERWARDS_MINUTES} min and more after it happened`;
  return [refusal('not-watched', `It happens now: look at ${what}, and say what is seen.`, field, null, allowed)];
}
