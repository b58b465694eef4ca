import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { Chance } from '@slackwater/api/demo/chance';
import type { ServerProcess } from '../../support/server-process.ts';
import { asSuperuser } from '../invariants.ts';
import { DISTURBANCES, type Network } from './network.ts';

/** What the faults are done to. */
export type Target = {
  data: string;
  chance: Chance;
  network: Network;
  server: ServerProcess;
  restart(): Promise<ServerProcess>;
};

export type Fault = { name: string; share: number; strike(target: Target): Promise<void> };

const terminate = (applicationName: string) => (target: Target) =>
  asSuperuser(target.data, async (client) => {
    await client.query(
      `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = $1
       ORDER BY (state = 'active') DESC, random() LIMIT 1`,
      [applicationName],
    );
  });

async function killServer(target: Target): Promise<void> {
  await target.server.end('SIGKILL');
  target.server = await target.restart();
}

/** The server lives on, and must start its database again by itself. */
async function killPostmaster({ data }: Target): Promise<void> {
  const postmaster = (await readFile(join(data, 'pg/postmaster.pid'), 'utf8')).split('\n')[0];
  process.kill(Number(postmaster), 'SIGKILL');
}

/** One of the processes that serve the connections: the others are ended with it, and the database recovers. */
const killBackend = (target: Target) =>
  asSuperuser(target.data, async (client) => {
    const { rows } = await client.query<{ pid: number }>(
      `SELECT pid FROM pg_stat_activity WHERE application_name = 'slackwater'
       ORDER BY (state = 'active') DESC, random() LIMIT 1`,
    );
    for (const { pid } of rows) process.kill(pid, 'SIGKILL');
  });

/** Stops every thread of the server for a while, as a machine does that has no memory left. */
const freeze = (shortestMs: number, longestMs: number) =>
  async function stopAndGo({ server, chance }: Target): Promise<void> {
    server.child.kill('SIGSTOP');
    await setTimeout(chance.between(shortestMs, longestMs));
    server.child.kill('SIGCONT');
  };

export const FAULTS: readonly Fault[] = [
  ...DISTURBANCES.map((how) => ({
    name: how,
    share: 12,
    async strike({ network }: Target) {
      network.disturb(how);
      while (!network.isThrough()) await setTimeout(5);
    },
  })),
  { name: 'connection of the server ended', share: 16, strike: terminate('slackwater') },
  { name: 'listening connection ended', share: 8, strike: terminate('slackwater-listen') },
  { name: 'server frozen', share: 6, strike: freeze(200, 1500) },
  { name: 'server killed', share: 8, strike: killServer },
  { name: 'backend killed', share: 2, strike: killBackend },
  { name: 'postmaster killed', share: 1, strike: killPostmaster },
  {
    name: 'postmaster and server killed',
    share: 1,
    async strike(target) {
      await killPostmaster(target);
      await killServer(target);
    },
  },
];

/** Only in the long run: a minute is what the whole of the short one has. */
export const FROZEN_FOR_A_MINUTE: Fault = { name: 'server frozen for 60 s', share: 0, strike: freeze(60_000, 60_000) };

/** One of the faults, by their shares. */
export function pick({ unit }: Chance): Fault {
  let left = unit() * FAULTS.reduce((sum, { share }) => sum + share, 0);
  for (const fault of FAULTS) {
    left -= fault.share;
    if (left < 0) return fault;
  }
  return FAULTS[0]!;
}
