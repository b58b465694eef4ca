import type { OpenAlert } from '../alert/alert.ts';
import type { Apply } from './apply.ts';
import type { BedsideState } from './state.ts';

export const applyAlertRaised: Apply<'alertRaised'> = (state, entry) => {
  const alert: OpenAlert = {
    ...entry.payload.condition,
    id: entry.id,
    raisedAt: entry.happenedAt,
    settingsVersion: entry.payload.settingsVersion,
    owner: null,
    snoozedUntil: null,
    escalatedTo: null,
  };
  return { ...state, alerts: [...state.alerts, alert] };
};

export const applyAlertAcknowledged: Apply<'alertAcknowledged'> = (state, entry) => {
  const { alertId, until } = entry.payload;
  const accountId = entry.author;
  return accountId === null ? state : changeAlert(state, alertId, { owner: { accountId, until } });
};

export const applyAlertHandedOn: Apply<'alertHandedOn'> = (state, entry) => {
  const { alertId, toAccountId, until } = entry.payload;
  return changeAlert(state, alertId, { owner: { accountId: toAccountId, until } });
};

export const applyAlertSnoozed: Apply<'alertSnoozed'> = (state, entry) =>
  changeAlert(state, entry.payload.alertId, { snoozedUntil: entry.payload.until });

export const applyAlertEscalated: Apply<'alertEscalated'> = (state, entry) =>
  changeAlert(state, entry.payload.alertId, { escalatedTo: entry.payload.to });

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

const changeAlert = (state: BedsideState, alertId: string, change: Partial<OpenAlert>): BedsideState => ({
  ...state,
  alerts: state.alerts.map((alert) => (alert.id === alertId ? { ...alert, ...change } : alert)),
});
