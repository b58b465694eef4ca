import { HOUR_MS } from '@slackwater/domain';
import type { Pool } from 'pg';

const READ_HEADS = {
  name: 'record-heads',
  text: `
SELECT ward_id AS "wardId", position, encode(digest, 'hex') AS digest
FROM ward_counter WHERE site_id = $1 AND position > 0 ORDER BY ward_id`,
};

export type HeadsOptions = {
  siteId: string;
  pool: Pool;
  /** Where the lines go: somewhere that a change of the database does not reach. */
  tell: (line: string) => void;
  onTrouble: (error: Error) => void;
  everyMs?: number;
};

/**
 * Tells the head of every ward's chain, at once and then every hour. A chain alone does not show that its end was cut
 * off; `npm run verify -- --anchor` takes what stands after "chain head", `ward:position:digest`, and does.
 * @returns a function that stops it, once the lines that are being read were told
 */
export function tellHeads({ siteId, pool, tell, onTrouble, everyMs = HOUR_MS }: HeadsOptions): () => Promise<void> {
  type Head = { wardId: string; position: number; digest: string };
  let telling = Promise.resolve();
  const tellAll = () => {
    telling = pool.query<Head>({ ...READ_HEADS, values: [siteId] }).then(({ rows }) => {
      for (const { wardId, position, digest } of rows) tell(`chain head ${wardId}:${position}:${digest}`);
    }, onTrouble);
  };
  tellAll();
  const timer = setInterval(tellAll, everyMs);
  return async () => {
    clearInterval(timer);
    await telling;
  };
}
