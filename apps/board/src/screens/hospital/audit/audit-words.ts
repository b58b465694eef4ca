import type { AuditEvent, AuditKind } from '@slackwater/contract';

/** Each kind of note as the manager reads it, in the order of the choice. */
export const AUDIT_WORDS: Record<AuditKind, string> = {
  readPatient: 'opened a patient',
  readBoard: 'opened a board',
  readWall: 'opened a wall display',
  searchedPatients: 'searched for patients',
  searchedLot: 'searched for a lot',
  admittedPatient: 'admitted a patient',
  changedIdentity: 'changed a patient’s identity',
  overrode: 'went on against a stop',
  changedSettings: 'changed settings',
  changedSupplies: 'changed products or recalls',
  signedIn: 'signed in',
  signInFailed: 'failed to sign in',
  signedOut: 'signed out',
  signedOutEverywhere: 'signed out everywhere',
  unlocked: 'unlocked',
  unlockFailed: 'failed to unlock',
  secondPersonChecked: 'checked as second person',
  secondPersonFailed: 'failed as second person',
  imported: 'imported a flow sheet',
  backedUp: 'backed up all tables',
  restored: 'restored all tables from a backup',
  readKept: 'read entries that were held back',
  sentKept: 'sent entries that were held back',
  releasedKept: 'released entries of somebody else',
  discardedKept: 'discarded entries that were held back',
  madeAccount: 'made an account',
  changedAccount: 'changed an account',
  readAccounts: 'read the accounts',
  readAudit: 'read the audit',
  openedWard: 'opened a ward',
  madeWall: 'made a wall display',
  openedWall: 'opened a wall display by its code',
  openWallFailed: 'gave a wrong code for a wall display',
  renewedWall: 'made a new code for a wall display',
  revokedWall: 'ended a wall display',
};

export const AUDIT_KINDS = Object.keys(AUDIT_WORDS) as readonly AuditKind[];

const STEP_WORDS: Readonly<Record<string, string>> = {
  prepare: 'with a bag that its check had stopped',
  startDrain: 'with a drain before the least dwell of what was added',
  startFill: 'with a fill over the guard',
  calledFirst: 'with a strong bag and a doubtful blood pressure',
};

/** Which parts of a note are said, and how. Ids that name nobody the reader knows are left out. */
export const detailWords = ({ what, detail }: AuditEvent, names: ReadonlyMap<string, string>): string =>
  Object.entries(detail)
    .flatMap(([key, value]): string[] => {
      if (key === 'step') return what === 'overrode' ? [STEP_WORDS[String(value)] ?? String(value)] : [];
      if (key === 'found' && Array.isArray(value)) return [`showed ${value.length} patients`];
      if (key === 'leftOut' && Array.isArray(value)) return [`left out ${value.length}`];
      if (key === 'fields' && Array.isArray(value)) return [value.join(', ')];
      if (typeof value === 'number') return [`${KEY_WORDS[key] ?? key} ${value}`];
      if (typeof value !== 'string') return [];
      const name = names.get(value);
      if (name !== undefined) return [`${KEY_WORDS[key] ?? key} ${name}`];
      return UUID.test(value) ? [] : [`${KEY_WORDS[key] ?? key} ${value}`];
    })
    .join('; ');

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

const KEY_WORDS: Readonly<Record<string, string>> = {
  made: 'of',
  changed: 'of',
  author: 'written by',
  inSessionOf: 'signed in:',
  reason: 'reason:',
  sent: 'sent',
  entries: 'entries',
  file: 'file',
  takenAt: 'taken at',
  rows: 'rows',
};
