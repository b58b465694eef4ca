import { isResponseKey, type ResponseTexts, withTexts } from '../effluent/response-texts.ts';
import type { Problem } from '../record/problem.ts';
import type { WardPolicy } from './policy.ts';
import type { WardSettings } from './settings.ts';
import { withChanges } from './settings.ts';

/**
 * What a ward decides for itself, with changes of numbers and of texts laid over it.
 * @returns both and no problems, or both as they were and every problem: all or nothing.
 */
export function changedPolicy(
  policy: Pick<WardPolicy, 'settings' | 'responses'>,
  changes: Readonly<Record<string, unknown>>,
): { settings: WardSettings; responses: ResponseTexts; problems: readonly Problem[] } {
  const all = Object.entries(changes);
  const numbers = withChanges(policy.settings, Object.fromEntries(all.filter(([key]) => !isResponseKey(key))));
  const texts = withTexts(policy.responses, Object.fromEntries(all.filter(([key]) => isResponseKey(key))));
  const problems = [...numbers.problems, ...texts.problems];
  return problems.length === 0
    ? { settings: numbers.settings, responses: texts.responses, problems }
    : { settings: policy.settings, responses: policy.responses, problems };
}
