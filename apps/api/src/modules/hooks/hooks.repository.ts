import type { HookView } from '@slackwater/contract';
import type { Pool } from 'pg';
import type { SiteAccess } from '../../access/site-access.ts';
import type { Hook } from '../../alarms/hooks/hook.ts';
import { epochMs } from '../../record/instants.ts';

type Row = Omit<HookView, 'url' | 'ranks'>;

/** $1 site, $2 target */
const STANDING = {
  name: 'hooks-standing',
  text: `
SELECT ${epochMs('max(delivered_at)')} AS "lastTakenAt",
  (count(*) FILTER (WHERE delivered_at > now() - interval '24 hours'))::int AS "takenToday",
  (count(*) FILTER (WHERE next_try_at IS NOT NULL))::int AS waiting,
  ${epochMs('min(next_try_at)')} AS "nextTryAt",
  (array_agg(last_error ORDER BY created_at DESC) FILTER (WHERE last_error IS NOT NULL))[1] AS "lastError",
  (count(*) FILTER (WHERE next_try_at IS NULL AND delivered_at IS NULL))::int AS "givenUp"
FROM delivery WHERE site_id = $1 AND target = $2`,
};

/** How each hook of the configuration fares; no secret leaves the process. */
export const standingOf = (pool: Pool, { siteId }: SiteAccess, hooks: readonly Hook[]): Promise<HookView[]> =>
  Promise.all(
    hooks.map(async ({ url, ranks }) => {
      const { rows } = await pool.query<Row>({ ...STANDING, values: [siteId, url] });
      return { url, ranks, ...rows[0]! };
    }),
  );
