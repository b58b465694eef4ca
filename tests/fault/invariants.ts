import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import pg from 'pg';
import { expect, vi } from 'vitest';
import { runToEnd, type Settings } from '../support/server-process.ts';
import type { Recorder } from './recorder.ts';

/** What each client was told stands there, told again in the same words; what it does not know about is written once. */
export async function expectNothingLost(recorders: readonly Recorder[], url: string): Promise<void> {
  for (const recorder of recorders) {
    const told = recorder.acknowledged();
    const stored = await recorder.storedAt(url);
    expect(told.filter(({ id }) => !stored.has(id))).toEqual([]);
    for (const receipt of told.slice(-5)) expect(await recorder.sendAgain(url, receipt.id)).toEqual(receipt);
    const unanswered = recorder.unanswered();
    if (unanswered === null) continue;
    const first = await recorder.sendAgain(url, unanswered.id);
    expect(await recorder.sendAgain(url, unanswered.id)).toEqual(first);
  }
}

/** Gapless, and nothing twice: asked of the tables themselves, and of the chain. */
export async function expectWholeRecord(data: string, settings: Settings): Promise<void> {
  await asSuperuser(data, async (client) => {
    const { rows } = await client.query(
      `SELECT count(*)::int AS entries, count(DISTINCT position)::int AS positions, max(position)::int AS last,
         (SELECT position::int FROM ward_counter WHERE ward_id = 'kestrel') AS counter,
         current_setting('fsync') || current_setting('synchronous_commit') AS safe
       FROM entry WHERE ward_id = 'kestrel'`,
    );
    const [{ entries, ...rest }] = rows;
    expect(rest).toEqual({ positions: entries, last: entries, counter: entries, safe: 'onon' });
  });
  const verified = await runToEnd('apps/api/src/commands/verify.ts', [], settings);
  expect(verified.code, verified.said).toBe(0);
}

/** Asks the embedded database of a running server, past the server. */
export async function asSuperuser<T>(data: string, use: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = await vi.waitFor(() => superuserOf(data), { timeout: 30_000, interval: 100 });
  try {
    return await use(client);
  } finally {
    await client.end();
  }
}

/** By the files that stand beside the database: nothing has to be started or asked for it. */
async function superuserOf(data: string): Promise<pg.Client> {
  const [, , , port] = (await readFile(join(data, 'pg/postmaster.pid'), 'utf8')).split('\n');
  const password = (await readFile(join(data, 'pg-password'), 'utf8')).trim();
  const address = { host: '127.0.0.1', port: Number(port), user: 'postgres', password, database: 'slackwater' };
  const client = new pg.Client({ ...address, application_name: 'fault-test' });
  client.on('error', () => undefined);
  await client.connect();
  return client;
}
