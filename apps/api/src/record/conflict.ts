import type { Pool } from 'pg';
import type { AppendFailure, HeadMoved } from './failures.ts';
import { epochMs } from './instants.ts';
import { readByIds } from './standing.ts';

/**
 * Tells the two ways apart in which a step may not follow: its `after` has not arrived yet (send again later), or
 * another step came after it (who, what, when).
 */
export async function explained(
  pool: Pool,
  siteId: string,
  head: string | null,
  failure: AppendFailure,
): Promise<AppendFailure> {
  if (failure.code === 'unknownAfter') {
    const known = await readByIds(pool, siteId, [failure.after]);
    if (known.length === 0) return failure;
  } else if (failure.code !== 'conflict') return failure;
  return { code: 'conflict', headMoved: head === null ? null : await headMoved(pool, siteId, head) };
}

async function headMoved(pool: Pool, siteId: string, head: string): Promise<HeadMoved | null> {
  const { rows } = await pool.query<HeadMoved>(
    `SELECT entry.id AS "entryId", entry.kind, account.name AS "authorName",
      ${epochMs('entry.happened_at')} AS "happenedAt", ${epochMs('entry.received_at')} AS "receivedAt"
    FROM entry LEFT JOIN account ON account.site_id = entry.site_id AND account.id = entry.author_id
    WHERE entry.site_id = $1 AND entry.id = $2`,
    [siteId, head],
  );
  return rows[0] ?? null;
}
