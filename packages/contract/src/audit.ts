import type { EpochMs } from '@slackwater/domain';

/** One read, sign-in or change of an account. Nothing in it can be changed or deleted by the server's own role. */
export type AuditEvent = {
  id: string;
  at: EpochMs;
  what: string;
  accountId: string | null;
  accountName: string | null;
  wardId: string | null;
  patientId: string | null;
  /** The address it came from. */
  address: string | null;
  detail: Readonly<Record<string, unknown>>;
};

/** `GET /api/audit?cursor=&limit=`, newest first. */
export type AuditPage = { events: readonly AuditEvent[]; nextCursor: string | null };
