import type { AuditEvent } from '@slackwater/contract';
import type { Pool } from 'pg';
import type { SiteAccess } from '../../access/site-access.ts';

type Row = {
  id: string;
  at_ms: number;
  action: string;
  account_id: string | null;
  account_name: string | null;
  ward_id: string | null;
  patient_id: string | null;
  address: string | null;
  detail: Record<string, unknown> | null;
};

export type AuditQuery = { patientId: string | null; accountId: string | null; limit: number; before: Before | null };
/** The last event of the page before. */
export type Before = { atMs: number; id: string };

/** $1 site, $2 patient, $3 account, $4 ms and $5 id of the event before, $6 how many */
const EVENTS_BEFORE = {
  name: 'audit-before',
  text: `
    SELECT u.id, (extract(epoch FROM u.at) * 1000)::float8 AS at_ms, u.action, u.account_id, a.name AS account_name,
      u.ward_id, u.patient_id, u.address, u.detail
    FROM audit u LEFT JOIN account a ON a.site_id = u.site_id AND a.id = u.account_id
    WHERE u.site_id = $1 AND ($2::uuid IS NULL OR u.patient_id = $2) AND ($3::uuid IS NULL OR u.account_id = $3)
      AND ($4::float8 IS NULL OR (u.at, u.id) < (to_timestamp($4 / 1000), $5::uuid))
    ORDER BY u.at DESC, u.id DESC LIMIT $6`,
};

/** Events newest first. */
export async function eventsBefore(pool: Pool, { siteId }: SiteAccess, query: AuditQuery): Promise<AuditEvent[]> {
  const { patientId, accountId, limit, before } = query;
  const values = [siteId, patientId, accountId, before?.atMs ?? null, before?.id ?? null, limit];
  const { rows } = await pool.query<Row>({ ...EVENTS_BEFORE, values });
  return rows.map((row) => ({
    id: row.id,
    at: row.at_ms,
    what: row.action,
    accountId: row.account_id,
    accountName: row.account_name,
    wardId: row.ward_id,
    patientId: row.patient_id,
    address: row.address,
    detail: row.detail ?? {},
  }));
}
