import { type EpochMs, HOUR_MS } from '@slackwater/domain';
import type { Pool } from 'pg';
import { createWatch, type Watch } from '../watch.ts';
import { listOf } from './addresses.ts';
import { FORGET, GIVE_UP, NOT_TAKEN, READ_NEXT, TAKE, TAKEN_BY_RECEIVER } from './deliveries.sql.ts';
import type { Hook, Hooks } from './hook.ts';
import { post } from './post.ts';
import { GIVE_UP_AFTER_MS, waitAfterMs } from './retry.ts';

/** With nothing due soon the next try is read this often: a message that was not heard of is late by as much. */
const LOOK_EVERY_MS = 5_000;
/** As many at once to one target, each on a connection of its own. */
const TOGETHER = 8;
/** Nobody else sends what was taken, for so long: well over the time in which a receiver has to answer. */
const MINE_FOR_MS = 60_000;
const KEPT_DAYS = 30;
const FORGET_EVERY_MS = 24 * HOUR_MS;

export type DeliveriesOptions = {
  siteId: string;
  pool: Pool;
  hooks: Hooks;
  onTrouble: (error: Error) => void;
};

export type Deliveries = {
  start(): void;
  /** Somebody wrote: there may be something to tell. */
  wake(): void;
  /** Ends what is under way; it is tried again by whoever comes next. */
  stop(): Promise<void>;
};

type Taken = { id: string; body: unknown; tries: number; now: EpochMs };

/**
 * Sends what was written for the hooks, each target by itself, so that one that does not answer holds up no other.
 * Messages stand in the database until they were taken or are a day old: nothing is lost with a process, and every
 * process of a site may do this. At least once: a receiver knows a message that comes again by its id.
 */
export function createDeliveries({ siteId, pool, hooks: { hooks, inside }, onTrouble }: DeliveriesOptions): Deliveries {
  const reachable = listOf(inside);
  const stopping = new AbortController();
  let forgotAt = Number.NEGATIVE_INFINITY;

  const watches: readonly Watch[] = hooks.map((hook) => createWatch(() => look(hook), onTrouble));

  /** Sends all that is due to one target. @returns after how many milliseconds to look again */
  async function look(hook: Hook): Promise<number> {
    await tidyUp();
    while (!stopping.signal.aborted) {
      const values = [siteId, hook.url, TOGETHER, MINE_FOR_MS];
      const { rows } = await pool.query<Taken>({ ...TAKE, values });
      if (rows.length === 0) break;
      await Promise.all(rows.map((taken) => send(hook, taken)));
    }
    const { rows } = await pool.query<{ nextAt: EpochMs | null; now: EpochMs }>({
      ...READ_NEXT,
      values: [siteId, hook.url],
    });
    const { nextAt, now } = rows[0]!;
    return nextAt === null ? LOOK_EVERY_MS : Math.min(LOOK_EVERY_MS, Math.max(0, nextAt - now) + 1);
  }

  async function send(hook: Hook, { id, body, tries, now }: Taken): Promise<void> {
    const message = { hook, id, at: now, body: JSON.stringify(body), inside: reachable, stopped: stopping.signal };
    const why = await post(message);
    if (why === null) await pool.query({ ...TAKEN_BY_RECEIVER, values: [siteId, id] });
    else await pool.query({ ...NOT_TAKEN, values: [siteId, id, why, waitAfterMs(tries)] });
  }

  async function tidyUp(): Promise<void> {
    await pool.query({ ...GIVE_UP, values: [siteId, GIVE_UP_AFTER_MS] });
    if (performance.now() - forgotAt < FORGET_EVERY_MS) return;
    forgotAt = performance.now();
    await pool.query({ ...FORGET, values: [siteId, KEPT_DAYS] });
  }

  const lookAtAll = () => {
    for (const watch of watches) watch.lookIn(0);
  };
  return {
    start: lookAtAll,
    wake: lookAtAll,
    async stop() {
      stopping.abort();
      await Promise.all(watches.map((watch) => watch.stop()));
    },
  };
}
