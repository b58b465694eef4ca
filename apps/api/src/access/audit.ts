import { randomUUID } from 'node:crypto';
import type { AuditKind } from '@slackwater/contract';
import { MINUTE_MS } from '@slackwater/domain';
import type { Pool } from 'pg';

export type AuditNote = {
  action: AuditKind;
  accountId: string | null;
  address: string;
  wardId?: string;
  patientId?: string;
  detail?: Record<string, unknown>;
};

/** A screen that stays open reads again and again: the same read by the same person counts once in so long. */
const SAME_READ_MS = 5 * MINUTE_MS;
const MOST_REMEMBERED = 20_000;

const NOTE = {
  name: 'audit-note',
  text: `
    INSERT INTO audit (site_id, id, at, account_id, action, ward_id, patient_id, address, detail)
    VALUES ($1, $2, now(), $3, $4, $5, $6, $7, $8)`,
};

export type Audit = ReturnType<typeof openAudit>;

/** Writes the audit of reads, sign-ins and accounts. `now` ages what is remembered, ms. */
export function openAudit(pool: Pool, siteId: string, now: () => number) {
  const lately = new Map<string, number>();

  async function note({ action, accountId, address, wardId, patientId, detail }: AuditNote) {
    const about = [
      accountId,
      action,
      wardId ?? null,
      patientId ?? null,
      address,
      detail ? JSON.stringify(detail) : null,
    ];
    await pool.query({ ...NOTE, values: [siteId, randomUUID(), ...about] });
  }

  const keyOf = (sessionId: string, { action, wardId, patientId }: Omit<AuditNote, 'accountId' | 'address'>) =>
    [sessionId, action, wardId, patientId].join(' ');
  const isLately = (key: string) => now() - (lately.get(key) ?? Number.NEGATIVE_INFINITY) < SAME_READ_MS;

  return {
    /** Each call is one row. */
    note,

    /** Whether the same read was noted so lately that `noteRead` would add nothing. */
    isReadNoted: (sessionId: string, read: Pick<AuditNote, 'action' | 'wardId' | 'patientId'>) =>
      isLately(keyOf(sessionId, read)),

    /** A read: nothing is shown before it is noted; the same again within five minutes is the same look. */
    async noteRead(sessionId: string, read: AuditNote) {
      const key = keyOf(sessionId, read);
      if (isLately(key)) return;
      await note(read);
      lately.delete(key);
      lately.set(key, now());
      if (lately.size > MOST_REMEMBERED) lately.delete(lately.keys().next().value!);
    },
  };
}
