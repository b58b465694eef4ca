import type { WardPolicy } from '../ward/policy.ts';
import { ALERT_TITLES, type AlertCondition } from './alert.ts';
import { ALERT_RULES } from './rules.ts';

export type AlertWords = { title: string; why: string; next: string; source: string };

/** An alert in words: what it is, why (the numbers), what to do next, and where the rule is from. */
export function alertWords({ kind, facts }: Pick<AlertCondition, 'kind' | 'facts'>, policy: WardPolicy): AlertWords {
  const rule = ALERT_RULES[kind];
  return {
    title: ALERT_TITLES[kind],
    why: rule.why(facts, policy),
    next: rule.next(facts, policy),
    source: rule.source,
  };
}
