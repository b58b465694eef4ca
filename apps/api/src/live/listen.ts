import type { Client, Notification } from 'pg';
import { POSITION_CHANNEL } from '../record/statements.sql.ts';
import { READ_POSITIONS } from './board.sql.ts';

/** All wards are compared this often, so that nothing rests on a notification. */
const COMPARE_EVERY_MS = 5_000;
const RECONNECT_AFTER_MS = 500;

export type WardPosition = { wardId: string; position: number; epoch: string };

export type Listening = {
  siteId: string;
  /** A client of its own, not yet connected; a pool would hand the connection on. */
  client: () => Client;
  /** Somebody wrote: the ward is at this position at least. */
  onPosition: (wardId: string, position: number) => void;
  /** All positions, with the database's clock in epoch milliseconds. */
  onCompare: (positions: readonly WardPosition[], now: number) => void;
  /** Without the connection nobody can tell what is new. */
  onLost: (error: Error) => void;
};

export type Listener = { isListening(): boolean; start(): Promise<void>; stop(): Promise<void> };

/**
 * Keeps one connection that listens for positions: it listens first and compares then, so that nothing falls between,
 * and compares again every few seconds, which also proves that the connection lives. A lost one is made anew.
 */
export function createListener({ siteId, client: makeClient, onPosition, onCompare, onLost }: Listening): Listener {
  let client: Client | null = null;
  let isStopped = false;
  let timer: NodeJS.Timeout | undefined;

  async function connect(): Promise<void> {
    const next = makeClient();
    // Without a handler a lost connection would end the process.
    next.on('error', (error) => lose(next, error));
    next.on('end', () => lose(next, new Error('The listening connection ended.')));
    next.on('notification', heard);
    try {
      await next.connect();
      await next.query(`LISTEN ${POSITION_CHANNEL}`);
      // a server that closes while it comes back would leave it open, and its database running for it
      if (isStopped) throw new Error('Nobody listens any more.');
      client = next;
      await compare();
    } catch (error) {
      client = null;
      next.end().catch(() => {});
      throw error;
    }
    timer = setTimeout(compareAgain, COMPARE_EVERY_MS);
  }

  function heard({ payload }: Notification): void {
    const [, site, wardId, position] = /^([^/]+)\/([^:]+):(\d+)$/.exec(payload ?? '') ?? [];
    if (site === siteId && wardId !== undefined) onPosition(wardId, Number(position));
  }

  async function compare(): Promise<void> {
    const current = client;
    if (current === null) return;
    const { rows } = await current.query<WardPosition & { now: number }>({ ...READ_POSITIONS, values: [siteId] });
    const [first] = rows;
    if (first !== undefined) onCompare(rows, first.now);
  }

  async function compareAgain(): Promise<void> {
    const current = client;
    if (current === null) return;
    // A connection whose other end is gone without a word answers nothing: the wait itself is the sign.
    const late = setTimeout(
      () => lose(current, new Error('The listening connection does not answer.')),
      COMPARE_EVERY_MS,
    );
    try {
      await compare();
      if (client === current) timer = setTimeout(compareAgain, COMPARE_EVERY_MS);
    } catch (error) {
      lose(current, error as Error);
    } finally {
      clearTimeout(late);
    }
  }

  function lose(which: Client, error: Error): void {
    if (client !== which || isStopped) return;
    client = null;
    clearTimeout(timer);
    which.end().catch(() => {});
    onLost(error);
    timer = setTimeout(reconnect, RECONNECT_AFTER_MS);
  }

  async function reconnect(): Promise<void> {
    if (isStopped) return;
    try {
      await connect();
    } catch (error) {
      if (isStopped) return;
      onLost(error as Error);
      timer = setTimeout(reconnect, RECONNECT_AFTER_MS);
    }
  }

  return {
    isListening: () => client !== null,
    start: connect,
    async stop() {
      isStopped = true;
      clearTimeout(timer);
      const current = client;
      client = null;
      await current?.end();
    },
  };
}
