import type { EpochMs } from '@slackwater/domain';

/** What is noted about people. Overrides and changes of settings stand in the record too, and are noted with it. */
export const AUDIT_KINDS = [
  'signedIn',
  'signInFailed',
  'signedOut',
  'signedOutEverywhere',
  'unlocked',
  'unlockFailed',
  'secondPersonChecked',
  'secondPersonFailed',
  'readBoard',
  'readWall',
  'readPatient',
  'searchedPatients',
  'searchedLot',
  'admittedPatient',
  'changedIdentity',
  'overrode',
  'changedSettings',
  'changedSupplies',
  'madeAccount',
  'changedAccount',
  'readAccounts',
  'readAudit',
  'openedWard',
  'madeWall',
  'openedWall',
  'openWallFailed',
  'renewedWall',
  'revokedWall',
  'imported',
  'backedUp',
  'restored',
  'readKept',
  'sentKept',
  'releasedKept',
  'discardedKept',
] as const;
export type AuditKind = (typeof AUDIT_KINDS)[number];

/** One read, sign-in, override or change. Nothing in it can be changed or deleted by the server's own role. */
export type AuditEvent = {
  id: string;
  at: EpochMs;
  what: AuditKind;
  /** null: nobody whom the hospital knows, or a command on the server itself. */
  accountId: string | null;
  accountName: string | null;
  wardId: string | null;
  patientId: string | null;
  /** Whom it was about; the name stands in the patient's own record. */
  hospitalNumber: string | null;
  /** The address it came from; null for what was noted with an entry of the record. */
  address: string | null;
  detail: Readonly<Record<string, unknown>>;
};

/** `GET /api/audit?accountId=&hospitalNumber=&wardId=&kind=&from=&to=&cursor=&limit=`, newest first. */
export type AuditPage = { events: readonly AuditEvent[]; nextCursor: string | null };
