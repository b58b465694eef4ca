import type { BedsideState } from '../bedside/state.ts';
import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { refusal } from './judge-types.ts';

/** The alert that is spoken of is open. */
export function alertRule(
  state: BedsideState,
  { payload }: Draft<'alertAcknowledged' | 'alertHandedOn' | 'alertSnoozed' | 'alertCleared'>,
): readonly Problem[] {
  if (state.alerts.some((alert) => alert.id === payload.alertId)) return [];
  return [refusal('alert-not-open', 'That alert is not open any more.', 'payload.alertId', payload.alertId)];
}
