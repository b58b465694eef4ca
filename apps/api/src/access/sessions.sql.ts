import type { EpochMs, Role } from '@slackwater/domain';

/** One session with who it is, read in one statement. Instants come as epoch milliseconds. */
export type SessionRow = {
  id: string;
  account_id: string;
  login: string;
  name: string;
  manager: boolean;
  last_seen_ms: EpochMs;
  locked_ms: EpochMs | null;
  ends_ms: EpochMs;
  now_ms: EpochMs;
  roles: { wardId: string; wardName: string; role: Role }[];
};

const ms = (column: string) => `floor(extract(epoch FROM ${column}) * 1000)::float8`;

/** $1 site, $2 hash of the token */
export const SESSION_BY_TOKEN = {
  name: 'session-by-token',
  text: `
    SELECT s.id, s.account_id, a.login, a.name, a.manager,
      ${ms('s.last_seen_at')} AS last_seen_ms, ${ms('s.locked_at')} AS locked_ms, ${ms('s.ends_at')} AS ends_ms,
      ${ms('now()')} AS now_ms,
      COALESCE((
        SELECT json_agg(json_build_object('wardId', r.ward_id, 'wardName', w.name, 'role', r.role) ORDER BY r.ward_id)
        FROM account_role r JOIN ward w ON w.site_id = r.site_id AND w.id = r.ward_id
        WHERE r.site_id = s.site_id AND r.account_id = s.account_id
      ), '[]') AS roles
    FROM session s JOIN account a ON a.site_id = s.site_id AND a.id = s.account_id
    WHERE s.site_id = $1 AND s.token_hash = $2
      AND s.ended_at IS NULL AND s.ends_at > now() AND a.disabled_at IS NULL`,
};

/** $1 site, $2 session, $3 account, $4 hash, $5 seconds it lasts, $6 address, $7 user agent */
export const START_SESSION = {
  name: 'session-start',
  text: `
    INSERT INTO session (site_id, id, account_id, token_hash, started_at, last_seen_at, ends_at, address, user_agent)
    VALUES ($1, $2, $3, $4, now(), now(), now() + make_interval(secs => $5), $6, $7)`,
};

/** $1 site, $2 session */
export const TOUCH_SESSION = {
  name: 'session-touch',
  text: 'UPDATE session SET last_seen_at = now() WHERE site_id = $1 AND id = $2',
};

/** $1 site, $2 session */
export const LOCK_SESSION = {
  name: 'session-lock',
  text: 'UPDATE session SET locked_at = COALESCE(locked_at, now()) WHERE site_id = $1 AND id = $2',
};

/** $1 site, $2 session */
export const UNLOCK_SESSION = {
  name: 'session-unlock',
  text: 'UPDATE session SET locked_at = NULL, last_seen_at = now() WHERE site_id = $1 AND id = $2',
};

/** $1 site, $2 account, $3 session or null for all of them. All processes are told to forget them. */
export const END_SESSIONS = {
  name: 'session-end',
  text: `
    WITH ended AS (
      UPDATE session SET ended_at = now()
      WHERE site_id = $1 AND account_id = $2 AND ($3::uuid IS NULL OR id = $3) AND ended_at IS NULL
      RETURNING id
    )
    SELECT pg_notify('slackwater_session', $2::text) FROM (SELECT count(*) FROM ended) AS told`,
};
