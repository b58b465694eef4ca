import type { AuditEvent, AuditKind } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { SiteAccess } from '../../access/site-access.ts';
import { epochMs, iso } from '../../record/instants.ts';

/** What is asked for; a filter that is left out lets everything through. */
export type AuditFilter = {
  accountId?: string | undefined;
  patientId?: string | undefined;
  wardId?: string | undefined;
  kind?: AuditKind | undefined;
  from?: EpochMs | undefined;
  to?: EpochMs | undefined;
};
/** The last event of the page before. */
export type Before = { at: EpochMs; id: string };

type Condition = { sql: (first: number) => string; values: readonly string[] };

/** The conditions that are asked for, and no other: each set of them is a statement that finds its index. */
const conditionsOf = (filter: AuditFilter, before: Before | null): Condition[] => {
  const when = (value: string | undefined, sql: Condition['sql']): Condition[] =>
    value === undefined ? [] : [{ sql, values: [value] }];
  const instant = (at: EpochMs | undefined) => (at === undefined ? undefined : iso(at));
  return [
    ...when(filter.accountId, (at) => `u.account_id = $${at}::uuid`),
    ...when(filter.patientId, (at) => `u.patient_id = $${at}::uuid`),
    ...when(filter.wardId, (at) => `u.ward_id = $${at}`),
    ...when(filter.kind, (at) => `u.action = $${at}`),
    ...when(instant(filter.from), (at) => `u.at >= $${at}::timestamptz`),
    ...when(instant(filter.to), (at) => `u.at < $${at}::timestamptz`),
    ...(before === null
      ? []
      : [
          {
            sql: (at: number) => `(u.at, u.id) < ($${at}::timestamptz, $${at + 1}::uuid)`,
            values: [iso(before.at), before.id],
          },
        ]),
  ];
};

/** $1 site, $2 how many, then the values of the conditions */
const eventsWhere = (conditions: string): string => `
  SELECT u.id, ${epochMs('u.at')} AS at, u.action AS what, u.account_id AS "accountId", a.name AS "accountName",
    u.ward_id AS "wardId", u.patient_id AS "patientId", p.hospital_number AS "hospitalNumber", u.address,
    coalesce(u.detail, '{}') AS detail
  FROM audit u
  LEFT JOIN account a ON a.site_id = u.site_id AND a.id = u.account_id
  LEFT JOIN patient p ON p.site_id = u.site_id AND p.id = u.patient_id
  WHERE u.site_id = $1${conditions}
  ORDER BY u.at DESC, u.id DESC LIMIT $2`;

/** Events newest first: from `from` on, before `to`, at most `limit` of them. */
export async function eventsBefore(
  pool: Pool,
  { siteId }: SiteAccess,
  filter: AuditFilter,
  { before, limit }: { before: Before | null; limit: number },
): Promise<AuditEvent[]> {
  const values: (string | number)[] = [siteId, limit];
  let where = '';
  for (const condition of conditionsOf(filter, before)) {
    where += ` AND ${condition.sql(values.length + 1)}`;
    values.push(...condition.values);
  }
  return (await pool.query<AuditEvent>(eventsWhere(where), values)).rows;
}

/** Who has the hospital number; null where nobody has. */
export async function patientOfNumber(pool: Pool, { siteId }: SiteAccess, number: string): Promise<string | null> {
  const found = await pool.query<{ id: string }>('SELECT id FROM patient WHERE site_id = $1 AND hospital_number = $2', [
    siteId,
    number,
  ]);
  return found.rows[0]?.id ?? null;
}
