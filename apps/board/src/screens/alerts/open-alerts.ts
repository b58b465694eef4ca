import type { BoardRow, OpenAlert, Role } from '@slackwater/domain';
import { ownerAt } from '@slackwater/domain/alert/owner';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { byGravity, RANKS, type Standing, standingAt } from '../../components/alert-flag/standing.ts';

/** An open alert with the row of its patient. */
export type Open = { alert: OpenAlert; row: BoardRow; standing: Standing };

/** Who looks, and in which role on the ward. */
export type Viewer = { accountId: string; role: Role | null };

/** All open alerts of the ward: the gravest first; of equals the viewer's own, then those that nobody has, then the oldest. */
export const openAlerts = (rows: readonly BoardRow[], viewer: Viewer, now: EpochMs): readonly Open[] => {
  const order = byGravity(now);
  const mine = (one: Open) => Number(!isMine(one, viewer, now));
  return rows
    .flatMap((row) => row.alerts.map((alert) => ({ alert, row, standing: standingAt(alert, now) })))
    .sort((a, b) => RANKS[a.alert.rank] - RANKS[b.alert.rank] || mine(a) - mine(b) || order(a.alert, b.alert));
};

/** Somebody has it: this person. Nobody has it: this person's patient, or it was taken up to this person's role. */
export const isMine = ({ alert, row }: Open, { accountId, role }: Viewer, now: EpochMs): boolean => {
  const owner = ownerAt(alert, now);
  if (owner !== null) return owner === accountId;
  if (nurseOf(row, now) === accountId) return true;
  return ESCALATED_ROLE[alert.escalatedTo ?? 'nobody'] === role && role !== null;
};

const ESCALATED_ROLE: Record<'nobody' | NonNullable<OpenAlert['escalatedTo']>, Role | undefined> = {
  nobody: undefined,
  chargeNurse: 'chargeNurse',
  physician: 'nephrologist',
};

/** Who has the patient in their care at an instant. */
export const nurseOf = ({ nurse }: BoardRow, now: EpochMs): string | null =>
  nurse !== null && now < nurse.to ? nurse.accountId : null;

/** Whose an alert is: who has it, else whose patient it is about. */
export const whose = ({ alert, row }: Open, now: EpochMs): string | null => ownerAt(alert, now) ?? nurseOf(row, now);
