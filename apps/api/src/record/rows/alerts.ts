import type { BedsideState, Entry, EpochMs, OpenAlert } from '@slackwater/domain';
import { iso, isoOrNull } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

type Cleared = { at: EpochMs; by: 'condition' | 'person' };

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
  snoozed_until: isoOrNull(alert.snoozedUntil),
  escalated_to: alert.escalatedTo,
  cleared_at: isoOrNull(cleared?.at ?? null),
  cleared_by: cleared?.by ?? null,
});

/** An alert's life as its entries tell it. */
type Life = { alert: OpenAlert; wardId: string; cleared: Cleared | null };

/** Takes the alerts that are open and the entries that follow, and answers every alert that either speaks of. */
function livesOf(open: readonly OpenAlert[], wardId: string, entries: readonly Entry[]): Life[] {
  const lives = new Map<string, Life>(open.map((alert) => [alert.id, { alert, wardId, cleared: null }]));
  const change = (id: string, to: (life: Life) => Life) => {
    const life = lives.get(id);
    if (life !== undefined) lives.set(id, to(life));
  };
  for (const entry of entries) {
    switch (entry.kind) {
      case 'alertRaised':
        lives.set(entry.id, { alert: raised(entry), wardId: entry.wardId, cleared: null });
        break;
      case 'alertCleared':
        change(entry.payload.alertId, (life) => ({
          ...life,
          cleared: { at: entry.happenedAt, by: entry.payload.by },
        }));
        break;
      case 'alertAcknowledged':
        change(entry.payload.alertId, (life) => owned(life, entry.author, entry.payload.until));
        break;
      case 'alertHandedOn':
        change(entry.payload.alertId, (life) => owned(life, entry.payload.toAccountId, entry.payload.until));
        break;
      case 'alertSnoozed':
        change(entry.payload.alertId, (life) => ({
          ...life,
          alert: { ...life.alert, snoozedUntil: entry.payload.until },
        }));
        break;
      case 'alertEscalated':
        change(entry.payload.alertId, (life) => ({
          ...life,
          alert: { ...life.alert, escalatedTo: entry.payload.to },
        }));
        break;
    }
  }
  return [...lives.values()];
}

const raised = (entry: Entry<'alertRaised'>): OpenAlert => ({
  ...entry.payload.condition,
  id: entry.id,
  raisedAt: entry.happenedAt,
  settingsVersion: entry.payload.settingsVersion,
  owner: null,
  snoozedUntil: null,
  escalatedTo: null,
});

const owned = (life: Life, accountId: string | null, until: EpochMs): Life => ({
  ...life,
  alert: { ...life.alert, owner: accountId === null ? null : { accountId, until } },
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
