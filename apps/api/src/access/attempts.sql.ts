/**
 * What one source has tried under one name since it last succeeded, within a day.
 * $1 site, $2 login, $3 source
 */
export const FAILURES_OF_NAME = {
  name: 'attempts-of-name',
  text: `
    SELECT count(*)::int AS failures, extract(epoch FROM now() - max(at))::float8 AS since_s
    FROM sign_in_attempt
    WHERE site_id = $1 AND login = $2 AND address = $3 AND NOT succeeded AND at > now() - interval '1 day'
      AND at > COALESCE((
        SELECT max(at) FROM sign_in_attempt WHERE site_id = $1 AND login = $2 AND address = $3 AND succeeded
      ), '-infinity')`,
};

/** What one source has tried under all names within a quarter of an hour. $1 site, $2 source */
export const FAILURES_OF_SOURCE = {
  name: 'attempts-of-source',
  text: `
    SELECT count(*)::int AS failures, extract(epoch FROM now() - max(at))::float8 AS since_s
    FROM sign_in_attempt
    WHERE site_id = $1 AND address = $2 AND NOT succeeded AND at > now() - interval '15 minutes'`,
};

/** Whether this name has signed in from this source within 90 days. $1 site, $2 login, $3 source */
export const HAS_SUCCEEDED = {
  name: 'attempts-succeeded',
  text: `
    SELECT EXISTS (
      SELECT FROM sign_in_attempt
      WHERE site_id = $1 AND login = $2 AND address = $3 AND succeeded AND at > now() - interval '90 days'
    ) AS known`,
};

/** $1 site, $2 id, $3 login, $4 source, $5 succeeded */
export const NOTE_ATTEMPT = {
  name: 'attempts-note',
  text: `
    INSERT INTO sign_in_attempt (site_id, id, login, address, at, succeeded) VALUES ($1, $2, $3, $4, now(), $5)`,
};

/** One attempt of a source at a time, in all processes, to the end of the transaction. $1 site and source */
export const HOLD_SOURCE = {
  name: 'attempts-hold',
  text: 'SELECT pg_advisory_xact_lock(hashtextextended($1, 0))',
};

/** $1 site, $2 attempt */
export const FORGET_ATTEMPT = {
  name: 'attempts-forget',
  text: 'DELETE FROM sign_in_attempt WHERE site_id = $1 AND id = $2',
};

/** Failures are of use for a day, successes for 90. $1 site, $2 login */
export const DROP_OLD_ATTEMPTS = {
  name: 'attempts-drop-old',
  text: `
    DELETE FROM sign_in_attempt
    WHERE site_id = $1 AND login = $2
      AND at < now() - CASE WHEN succeeded THEN interval '90 days' ELSE interval '1 day' END`,
};
