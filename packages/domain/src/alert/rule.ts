import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { WardSettings } from '../ward/settings.ts';
import type { AlertCondition, AlertRank } from './alert.ts';

/** A condition with the instant at which time alone ends it (an overdue drain becomes far overdue); null = never. */
export type Span = Omit<AlertCondition, 'kind'> & { until: EpochMs | null };

/** The numbers behind an alert, for its words. */
export type Facts = AlertCondition['facts'];

/**
 * One rule. It does not know now: it answers with the spans of time in which its condition is true, if nothing happens.
 * So what is true now, and when that next changes, come from the same numbers.
 */
export type AlertRule = {
  spans: (state: BedsideState, policy: WardPolicy) => readonly Span[];
  /** It stays until a person clears it, whatever comes. */
  staysUntilCleared: boolean;
  /** The ranks that it may be raised with, the gravest first. */
  ranks: readonly AlertRank[];
  /** When it is raised, in words, without the ward's own numbers. */
  when: string;
  /** What ends it, so that it does not fall and rise again by itself. */
  ends: string;
  /** The ward's settings that it rests on. */
  settings: readonly (keyof WardSettings)[];
  /** Why, in numbers. */
  why: (facts: Facts, policy: WardPolicy) => string;
  /** What to do next. */
  next: (facts: Facts, policy: WardPolicy) => string;
  /** Where rule and threshold are from. */
  source: string;
};
