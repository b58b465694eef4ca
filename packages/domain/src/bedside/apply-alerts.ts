import { raisedBy, toldOf } from '../alert/told.ts';
import type { Apply } from './apply.ts';

export const applyAlertRaised: Apply<'alertRaised'> = (state, entry) => ({
  ...state,
  alerts: [...state.alerts, raisedBy(entry)],
});

/** Acknowledged, handed on, snoozed or taken a step up: one alert moves on. */
export const applyToAlert: Apply<'alertAcknowledged' | 'alertHandedOn' | 'alertSnoozed' | 'alertEscalated'> = (
  state,
  entry,
) => ({
  ...state,
  alerts: state.alerts.map((alert) => (alert.id === entry.payload.alertId ? toldOf(alert, entry) : alert)),
});

/** What persons cleared is kept, newest first, so far back. */
const CLEARED_KEPT = 20;

export const applyAlertCleared: Apply<'alertCleared'> = (state, entry) => {
  const { alertId, by } = entry.payload;
  const cleared = state.alerts
    .filter((alert) => alert.id === alertId)
    .map(({ kind, cause, rank }) => ({ kind, cause, rank }));
  return {
    ...state,
    alerts: state.alerts.filter((alert) => alert.id !== alertId),
    clearedByPerson:
      by === 'person' ? [...cleared, ...state.clearedByPerson].slice(0, CLEARED_KEPT) : state.clearedByPerson,
  };
};
