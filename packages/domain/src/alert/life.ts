import type { BedsideState } from '../bedside/state.ts';
import { workUpToOpen } from '../peritonitis/opens-work-up.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { AlertCondition, AlertRank, OpenAlert } from './alert.ts';
import { stepsUp } from './owner.ts';
import { ALERT_RULES, conditionsAt } from './rules.ts';
import type { ToolDraft } from './tool-draft.ts';

const WEIGHT: Record<AlertRank, number> = { low: 1, medium: 2, high: 3 };

type About = Pick<AlertCondition, 'kind' | 'cause'>;

const isAbout = (one: About) => (other: About) => one.kind === other.kind && one.cause === other.cause;

/**
 * What the tool must write now, so that the open alerts are those that the rules call for: clears first (one open alert
 * of a kind and cause), then raises, then steps up. An alert whose rank changed is cleared and raised anew, so that a
 * graver one asks again. Once these are written it answers with none.
 */
export function settle(state: BedsideState, now: EpochMs, policy: WardPolicy): readonly ToolDraft[] {
  const conditions = conditionsAt(state, now, policy);
  const stays = (alert: OpenAlert) => {
    if (state.stay === null) return false;
    if (ALERT_RULES[alert.kind].staysUntilCleared) return true;
    return conditions.some((condition) => isAbout(alert)(condition) && condition.rank === alert.rank);
  };
  const staying = state.alerts.filter(stays);
  const workUp = workUpToOpen(state);
  return [
    ...(workUp === null ? [] : [{ kind: 'workUpOpened' as const, payload: workUp }]),
    ...state.alerts.filter((alert) => !stays(alert)).map(cleared),
    ...conditions
      .filter((condition) => !staying.some(isAbout(condition)) && !isAnswered(condition, state))
      .map((condition) => raised(condition, policy)),
    ...staying.flatMap((alert) => stepUp(alert, now, policy)),
  ];
}

/** A person cleared it with a reason; only a higher rank asks again. */
const isAnswered = (condition: AlertCondition, state: BedsideState): boolean =>
  state.clearedByPerson.some((one) => isAbout(condition)(one) && WEIGHT[condition.rank] <= WEIGHT[one.rank]);

const cleared = (alert: OpenAlert): ToolDraft => ({
  kind: 'alertCleared',
  payload: { alertId: alert.id, by: 'condition', reason: null },
});

const raised = (condition: AlertCondition, policy: WardPolicy): ToolDraft => ({
  kind: 'alertRaised',
  payload: { condition, settingsVersion: policy.version },
});

/** The highest step that is due: after a pause of the watch a lower one is not written afterwards. */
function stepUp(alert: OpenAlert, now: EpochMs, policy: WardPolicy): readonly ToolDraft[] {
  const due = stepsUp(alert, policy.settings).findLast((step) => step.at <= now);
  return due ? [{ kind: 'alertEscalated', payload: { alertId: alert.id, to: due.to } }] : [];
}
