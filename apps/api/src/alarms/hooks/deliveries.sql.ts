import { epochMs, NOW_MS } from '../../record/instants.ts';
import type { Statement } from '../../record/statements.sql.ts';

/**
 * Takes messages of one target whose time has come, and puts their next try off: whoever took them and was killed
 * gives them back by that. No transaction stays open while the network is waited for. $1 site, $2 target, $3 how many,
 * $4 ms for which nobody else takes them
 */
export const TAKE: Statement = {
  name: 'deliveries-take',
  text: `
UPDATE delivery SET tries = tries + 1, tried_at = clock_timestamp(),
  next_try_at = clock_timestamp() + make_interval(secs => $4::float8 / 1000)
FROM (
  SELECT id FROM delivery
  WHERE site_id = $1 AND target = $2 AND next_try_at <= clock_timestamp()
  ORDER BY next_try_at LIMIT $3 FOR UPDATE SKIP LOCKED
) AS taken
WHERE delivery.site_id = $1 AND delivery.id = taken.id
RETURNING delivery.id, delivery.body, delivery.tries, ${NOW_MS} AS now`,
};

/** $1 site, $2 id */
export const TAKEN_BY_RECEIVER: Statement = {
  name: 'deliveries-delivered',
  text: `
UPDATE delivery SET delivered_at = clock_timestamp(), next_try_at = NULL, last_error = NULL
WHERE site_id = $1 AND id = $2 AND delivered_at IS NULL`,
};

/** $1 site, $2 id, $3 why, $4 ms until the next try */
export const NOT_TAKEN: Statement = {
  name: 'deliveries-not-taken',
  text: `
UPDATE delivery SET last_error = $3, next_try_at = clock_timestamp() + make_interval(secs => $4::float8 / 1000)
WHERE site_id = $1 AND id = $2 AND delivered_at IS NULL`,
};

/** What is too old to page anybody about is tried no more. $1 site, $2 ms */
export const GIVE_UP: Statement = {
  name: 'deliveries-give-up',
  text: `
UPDATE delivery SET next_try_at = NULL, last_error = coalesce(last_error, 'was not tried in time')
WHERE site_id = $1 AND next_try_at IS NOT NULL AND created_at < clock_timestamp() - make_interval(secs => $2::float8 / 1000)`,
};

/** What was settled so long ago is of no use to anybody: the record has the alert. $1 site, $2 days */
export const FORGET: Statement = {
  name: 'deliveries-forget',
  text: `
DELETE FROM delivery
WHERE site_id = $1 AND next_try_at IS NULL AND created_at < clock_timestamp() - make_interval(days => $2)`,
};

/** $1 site, $2 target */
export const READ_NEXT: Statement = {
  name: 'deliveries-next',
  text: `
SELECT ${epochMs('min(next_try_at)')} AS "nextAt", ${NOW_MS} AS now
FROM delivery WHERE site_id = $1 AND target = $2 AND next_try_at IS NOT NULL`,
};
