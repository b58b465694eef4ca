import type { AlertKind, AlertMeasures, AlertRank, EpochMs } from '@slackwater/domain';

/** An alert that has ended: how, and by whom. */
export type ClearedAlert = {
  id: string;
  patientId: string;
  patientName: string;
  /** Where the patient lies now; null once they have left. */
  bed: string | null;
  kind: AlertKind;
  rank: AlertRank;
  since: EpochMs;
  raisedAt: EpochMs;
  settingsVersion: number;
  acknowledgedAt: EpochMs | null;
  clearedAt: EpochMs;
  clearedBy: 'condition' | 'person';
  /** null: the condition ended. */
  clearedByName: string | null;
  reason: string | null;
};

/** `GET /api/wards/{ward}/alerts/cleared`: those of the ward day, the newest first. */
export type ClearedAlertsView = { from: EpochMs; alerts: readonly ClearedAlert[]; more: boolean };

/** `GET /api/wards/{ward}/alerts/measures?hours=`: what the tool says about its own alerts. */
export type AlertMeasuresView = AlertMeasures & { from: EpochMs; to: EpochMs };

/** A paging system of the configuration, and how it fares. */
export type HookView = {
  url: string;
  ranks: readonly AlertRank[];
  lastTakenAt: EpochMs | null;
  /** Taken within the last 24 h. */
  takenToday: number;
  waiting: number;
  nextTryAt: EpochMs | null;
  /** Why the newest that waits or was given up was not taken. */
  lastError: string | null;
  /** Given up within the last 30 days: a day went by and nobody took them. */
  givenUp: number;
};

/** `GET /api/hooks`, for managers. */
export type HooksView = { hooks: readonly HookView[] };
