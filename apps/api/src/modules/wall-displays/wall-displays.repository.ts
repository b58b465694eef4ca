import type { WallDisplay } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { WardAccess } from '../../access/ward-access.ts';
import { epochMs } from '../../record/instants.ts';

/**
 * Accounts that are nothing but a display of this ward, whichever way they sign in. $1 site, $2 ward
 */
const ITS_DISPLAYS = `
  SELECT r.account_id FROM account_role r JOIN account a ON a.site_id = r.site_id AND a.id = r.account_id
  WHERE r.site_id = $1 AND r.ward_id = $2 AND r.role = 'wall' AND NOT a.manager
    AND NOT EXISTS (
      SELECT FROM account_role other
      WHERE other.site_id = $1 AND other.account_id = r.account_id AND (other.role <> 'wall' OR other.ward_id <> $2)
    )`;

/** $1 site, $2 ward. Those in use first, each by name. */
const DISPLAYS = {
  name: 'wall-displays',
  text: `
    SELECT a.id, a.name, maker.name AS "madeBy", ${epochMs('a.created_at')} AS "madeAt",
      CASE WHEN w.code_hash IS NOT NULL THEN ${epochMs('w.code_ends_at')} END AS "codeEndsAt",
      seen.last AS "lastSeenAt", seen.ends AS "endsAt", ${epochMs('a.disabled_at')} AS "revokedAt"
    FROM account a
    LEFT JOIN wall_display w ON w.site_id = a.site_id AND w.account_id = a.id
    LEFT JOIN account maker ON maker.site_id = w.site_id AND maker.id = w.made_by
    CROSS JOIN LATERAL (
      SELECT ${epochMs('max(s.last_seen_at)')} AS last,
        ${epochMs('max(s.ends_at) FILTER (WHERE s.ended_at IS NULL AND s.ends_at > now())')} AS ends
      FROM session s WHERE s.site_id = a.site_id AND s.account_id = a.id
    ) seen
    WHERE a.site_id = $1 AND a.id IN (${ITS_DISPLAYS})
    ORDER BY a.disabled_at IS NOT NULL, a.name, a.id`,
};

/** $1 site, $2 ward, $3 id, $4 login, $5 name, $6 hash of a password that nobody has, $7 who, $8 code's hash, $9 s */
const MAKE = {
  name: 'wall-display-make',
  text: `
    WITH account AS (
      INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, created_at)
      VALUES ($1, $3, $4, $5, $6, now(), now())
    ), role AS (
      INSERT INTO account_role (site_id, account_id, ward_id, role) VALUES ($1, $3, $2, 'wall')
    )
    INSERT INTO wall_display (site_id, account_id, made_by, code_hash, code_ends_at)
    VALUES ($1, $3, $7, $8, now() + make_interval(secs => $9))
    RETURNING ${epochMs('code_ends_at')} AS "codeEndsAt"`,
};

/** What is open goes on until the code is used. $1 site, $2 ward, $3 account, $4 code's hash, $5 s */
const RENEW = {
  name: 'wall-display-renew',
  text: `
    UPDATE wall_display w SET code_hash = $4, code_ends_at = now() + make_interval(secs => $5), opened_at = NULL
    FROM account a
    WHERE w.site_id = $1 AND w.account_id = $3 AND w.account_id IN (${ITS_DISPLAYS})
      AND a.site_id = w.site_id AND a.id = w.account_id AND a.disabled_at IS NULL
    RETURNING ${epochMs('w.code_ends_at')} AS "codeEndsAt"`,
};

/** Once: of two devices that type one code, one is let in. $1 site, $2 code's hash */
const REDEEM = {
  name: 'wall-display-redeem',
  text: `
    UPDATE wall_display w SET code_hash = NULL, opened_at = now()
    FROM account a
    WHERE w.site_id = $1 AND w.code_hash = $2 AND w.code_ends_at > now()
      AND a.site_id = w.site_id AND a.id = w.account_id AND a.disabled_at IS NULL
    RETURNING w.account_id AS "accountId"`,
};

/** $1 site, $2 ward, $3 account */
const REVOKE = {
  name: 'wall-display-revoke',
  text: `
    UPDATE account SET disabled_at = COALESCE(disabled_at, now())
    WHERE site_id = $1 AND id = $3 AND id IN (${ITS_DISPLAYS})`,
};

/** Every display of the ward, the revoked ones last. */
export async function displaysOf(pool: Pool, { siteId, wardId }: WardAccess): Promise<WallDisplay[]> {
  return (await pool.query<WallDisplay>({ ...DISPLAYS, values: [siteId, wardId] })).rows;
}

export type DisplayToMake = {
  id: string;
  login: string;
  name: string;
  passwordHash: string;
  codeHash: Buffer;
  codeLastsMs: number;
};

/** @returns until when its code may be used */
export async function addDisplay(pool: Pool, ward: WardAccess, display: DisplayToMake): Promise<EpochMs> {
  const { id, login, name, passwordHash, codeHash, codeLastsMs } = display;
  const by = ward.by.accountId;
  const values = [ward.siteId, ward.wardId, id, login, name, passwordHash, by, codeHash, codeLastsMs / 1000];
  const { rows } = await pool.query<{ codeEndsAt: EpochMs }>({ ...MAKE, values });
  return rows[0]!.codeEndsAt;
}

/** @returns until when its new code may be used; null where there is no such display in use, or none with codes */
export async function giveNewCode(
  pool: Pool,
  { siteId, wardId }: WardAccess,
  { id, codeHash, codeLastsMs }: Pick<DisplayToMake, 'id' | 'codeHash' | 'codeLastsMs'>,
): Promise<EpochMs | null> {
  const values = [siteId, wardId, id, codeHash, codeLastsMs / 1000];
  const { rows } = await pool.query<{ codeEndsAt: EpochMs }>({ ...RENEW, values });
  return rows[0]?.codeEndsAt ?? null;
}

/** @returns the display's account; null where the code is none, was used, has ended, or its display was revoked */
export async function redeemCode(pool: Pool, siteId: string, codeHash: Buffer): Promise<string | null> {
  const { rows } = await pool.query<{ accountId: string }>({ ...REDEEM, values: [siteId, codeHash] });
  return rows[0]?.accountId ?? null;
}

/** @returns whether there is such a display on this ward */
export async function disableDisplay(pool: Pool, { siteId, wardId }: WardAccess, id: string): Promise<boolean> {
  return (await pool.query({ ...REVOKE, values: [siteId, wardId, id] })).rowCount === 1;
}
