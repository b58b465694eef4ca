import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { AlertCondition, AlertKind } from './alert.ts';
import type { AlertRule, Span } from './rule.ts';
import { countersignDue, drainOverdue, fillOverdue, holdReviewDue, prescriptionReviewDue } from './rules-due.ts';
import { effluentBloody, effluentBowelOrBile, effluentCloudy } from './rules-effluent.ts';
import { drainShortOften, dwellRetained, retainedTwice } from './rules-outflow.ts';
import { breathless, exitSiteInfection, leakOrSwelling, painToCall, suddenOutflow } from './rules-patient.ts';
import { overRemoval } from './rules-removal.ts';
import { pressureOutside, temperatureOutside } from './rules-signs.ts';
import { drainSlow, drainVerySlow, fillLeftStanding, fillSlow, visitLeftStanding } from './rules-visit.ts';
import { drainShort, farTooMuchInside, tooMuchInside } from './rules-volume.ts';
import { workUpWaiting } from './rules-work-up.ts';

/** Every alert that the tool can raise: when, how urgent, why, what next, and where the rule is from. */
export const ALERT_RULES: Readonly<Record<AlertKind, AlertRule>> = {
  effluentCloudy,
  effluentBloody,
  effluentBowelOrBile,
  suddenOutflow,
  breathless,
  painToCall,
  fillLeftStanding,
  drainVerySlow,
  farTooMuchInside,
  dwellRetained,
  overRemoval,
  drainOverdue,
  fillOverdue,
  drainShortOften,
  drainShort,
  retainedTwice,
  pressureOutside,
  temperatureOutside,
  fillSlow,
  drainSlow,
  visitLeftStanding,
  leakOrSwelling,
  exitSiteInfection,
  workUpWaiting,
  tooMuchInside,
  holdReviewDue,
  prescriptionReviewDue,
  countersignDue,
};

const RULES = Object.entries(ALERT_RULES) as readonly (readonly [AlertKind, AlertRule])[];

/** Every condition of a bedside with the span of time in which it is true, if nothing happens. None without a stay. */
export function spansOf(state: BedsideState, policy: WardPolicy): readonly (Span & { kind: AlertKind })[] {
  if (state.stay === null) return [];
  return RULES.flatMap(([kind, rule]) => rule.spans(state, policy).map((span) => ({ kind, ...span })));
}

/** What the rules say is true at an instant, for the state as it is: at most one condition of a kind and cause. */
export function conditionsAt(state: BedsideState, now: EpochMs, policy: WardPolicy): readonly AlertCondition[] {
  return spansOf(state, policy)
    .filter((span) => span.since <= now && (span.until === null || now < span.until))
    .map(({ until: _, ...condition }) => condition);
}
