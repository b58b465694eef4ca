import { raisedBy } from '../alert/told.ts';
import type { ToolDraft } from '../alert/tool-draft.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';

/** What a fold makes of the tool's own entries; written for tests, so that they need no fold. */
export function applyTool(state: BedsideState, drafts: readonly ToolDraft[], now: EpochMs): BedsideState {
  let alerts = [...state.alerts];
  let workUps = [...state.workUps];
  for (const { kind, payload } of drafts) {
    if (kind === 'alertCleared') alerts = alerts.filter((alert) => alert.id !== payload.alertId);
    if (kind === 'alertEscalated') {
      alerts = alerts.map((alert) => (alert.id === payload.alertId ? { ...alert, escalatedTo: payload.to } : alert));
    }
    if (kind === 'workUpOpened') {
      workUps = [
        { ...payload, id: `opened-${now}`, openedAt: now, samples: [], results: [], antibiotics: [], closed: null },
        ...workUps,
      ];
    }
    if (kind === 'alertRaised') {
      alerts.push(raisedBy({ id: `raised-${now}-${alerts.length}`, happenedAt: now, payload }));
    }
  }
  return { ...state, alerts, workUps };
}
