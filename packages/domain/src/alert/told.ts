import type { Entry } from '../record/entry.ts';
import type { EpochMs } from '../time/instant.ts';
import type { OpenAlert } from './alert.ts';

/** An alert as the entry that raises it makes it. */
export const raisedBy = (entry: Pick<Entry<'alertRaised'>, 'id' | 'happenedAt' | 'payload'>): OpenAlert => ({
  ...entry.payload.condition,
  id: entry.id,
  raisedAt: entry.happenedAt,
  settingsVersion: entry.payload.settingsVersion,
  owner: null,
  acknowledgedAt: null,
  snoozedUntil: null,
  escalatedTo: null,
});

/** Somebody has it from an instant on, until a time. The steps up begin anew when that ends. */
const hadBy = (alert: OpenAlert, accountId: string, until: EpochMs, at: EpochMs): OpenAlert => ({
  ...alert,
  owner: { accountId, until },
  acknowledgedAt: alert.acknowledgedAt ?? at,
  escalatedTo: null,
});

/** An open alert as an entry about it leaves it; entries of other kinds leave it as it is. */
export function toldOf(alert: OpenAlert, entry: Entry): OpenAlert {
  switch (entry.kind) {
    case 'alertAcknowledged':
      return entry.author === null ? alert : hadBy(alert, entry.author, entry.payload.until, entry.happenedAt);
    case 'alertHandedOn':
      return hadBy(alert, entry.payload.toAccountId, entry.payload.until, entry.happenedAt);
    case 'alertSnoozed':
      return { ...alert, snoozedUntil: entry.payload.until, escalatedTo: null };
    case 'alertEscalated':
      return { ...alert, escalatedTo: entry.payload.to };
    default:
      return alert;
  }
}
