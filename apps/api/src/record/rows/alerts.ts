import { type BedsideState, type Entry, type EpochMs, type OpenAlert, raisedBy, toldOf } from '@slackwater/domain';
import { iso, isoOrNull } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

type Cleared = { at: EpochMs; by: 'condition' | 'person'; accountId: string | null; reason: string | null };

const row = (
  siteId: string,
  patientId: string,
  wardId: string,
  alert: OpenAlert,
  cleared: Cleared | null,
): FoldedRow<'alert'> => ({
  site_id: siteId,
  id: alert.id,
  patient_id: patientId,
  ward_id: wardId,
  kind: alert.kind,
  cause: alert.cause,
  rank: alert.rank,
  since: iso(alert.since),
  facts: alert.facts,
  settings_version: alert.settingsVersion,
  raised_at: iso(alert.raisedAt),
  owner_id: alert.owner?.accountId ?? null,
  owned_until: isoOrNull(alert.owner?.until ?? null),
  acknowledged_at: isoOrNull(alert.acknowledgedAt),
  snoozed_until: isoOrNull(alert.snoozedUntil),
  escalated_to: alert.escalatedTo,
  cleared_at: isoOrNull(cleared?.at ?? null),
  cleared_by: cleared?.by ?? null,
  cleared_by_id: cleared?.accountId ?? null,
  clear_reason: cleared?.reason ?? null,
});

/** An alert's life as its entries tell it. */
type Life = { alert: OpenAlert; wardId: string; cleared: Cleared | null };

/** Takes the alerts that are open and the entries that follow, and answers every alert that either speaks of. */
function livesOf(open: readonly OpenAlert[], wardId: string, entries: readonly Entry[]): Life[] {
  const lives = new Map<string, Life>(open.map((alert) => [alert.id, { alert, wardId, cleared: null }]));
  for (const entry of entries) {
    if (entry.kind === 'alertRaised') {
      lives.set(entry.id, { alert: raisedBy(entry), wardId: entry.wardId, cleared: null });
      continue;
    }
    const life = 'alertId' in entry.payload ? lives.get(entry.payload.alertId) : undefined;
    if (life === undefined) continue;
    const cleared = entry.kind === 'alertCleared' ? clearedBy(entry) : life.cleared;
    lives.set(life.alert.id, { ...life, alert: toldOf(life.alert, entry), cleared });
  }
  return [...lives.values()];
}

const clearedBy = ({ happenedAt, author, payload }: Entry<'alertCleared'>): Cleared => ({
  at: happenedAt,
  by: payload.by,
  accountId: author,
  reason: payload.reason,
});

const clearedFirst = (lives: readonly Life[]) =>
  lives.toSorted((a, b) => Number(a.cleared === null) - Number(b.cleared === null));

/** All alerts of a patient; cleared ones first, so that the same kind and cause may be raised anew in one statement. */
export const alertRows = (siteId: string, patientId: string, entries: readonly Entry[]): FoldedRow<'alert'>[] =>
  clearedFirst(livesOf([], '', entries)).map((life) => row(siteId, patientId, life.wardId, life.alert, life.cleared));

/** The alerts that new entries speak of; `before` is the state without them. */
export function alertRowsOf(
  siteId: string,
  patientId: string,
  wardId: string,
  entries: readonly Entry[],
  before: BedsideState,
): FoldedRow<'alert'>[] {
  const spokenOf = new Set(
    entries.flatMap((entry) =>
      entry.kind === 'alertRaised' ? [entry.id] : 'alertId' in entry.payload ? [entry.payload.alertId] : [],
    ),
  );
  return clearedFirst(livesOf(before.alerts, wardId, entries).filter((life) => spokenOf.has(life.alert.id))).map(
    (life) => row(siteId, patientId, life.wardId, life.alert, life.cleared),
  );
}
