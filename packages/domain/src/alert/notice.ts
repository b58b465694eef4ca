import type { BedsideState } from '../bedside/state.ts';
import type { Entry } from '../record/entry.ts';
import type { EpochMs } from '../time/instant.ts';
import type { OpenAlert } from './alert.ts';
import { raisedBy, toldOf } from './told.ts';

/** A turn in an alert's life that is told outside the ward. Names nobody: a bed, a kind, a rank. */
export type AlertNotice = {
  event: 'raised' | 'escalated' | 'cleared';
  /** The entry that it is about: the same entry is the same notice. */
  entryId: string;
  at: EpochMs;
  wardId: string;
  bed: string | null;
  alert: OpenAlert;
};

const EVENTS = { alertRaised: 'raised', alertEscalated: 'escalated', alertCleared: 'cleared' } as const;

/**
 * What new entries of a patient have to say outside, in their order: alerts raised, taken up a step, cleared.
 * @param before the state without them; its alerts are those that later entries speak of
 * @param after the state with them: the bed, if the patient still has one
 */
export function noticesOf(
  before: BedsideState,
  entries: readonly Entry[],
  after: Pick<BedsideState, 'stay'>,
): readonly AlertNotice[] {
  const alerts = new Map(before.alerts.map((alert) => [alert.id, alert]));
  const bed = after.stay?.bed ?? before.stay?.bed ?? null;
  return entries.flatMap((entry) => {
    const told = entry.kind === 'alertRaised' ? undefined : alertOf(entry, alerts);
    const alert = entry.kind === 'alertRaised' ? raisedBy(entry) : told && toldOf(told, entry);
    if (alert === undefined) return [];
    alerts.set(alert.id, alert);
    const event = entry.kind in EVENTS ? EVENTS[entry.kind as keyof typeof EVENTS] : undefined;
    if (event === undefined) return [];
    return [{ event, entryId: entry.id, at: entry.happenedAt, wardId: entry.wardId, bed, alert }];
  });
}

const alertOf = (entry: Entry, alerts: ReadonlyMap<string, OpenAlert>): OpenAlert | undefined =>
  'alertId' in entry.payload ? alerts.get(entry.payload.alertId as string) : undefined;
