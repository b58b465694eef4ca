// A disk of the server that runs full while nurses record: nothing that was told is lost, what cannot be recorded is
// answered as such, and all goes on by itself once there is space. Where a small file system may be mounted (as root)
// Postgres meets the real thing; elsewhere a trigger raises what it then says.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { startCluster } from '@slackwater/tools/cluster';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { type ServerProcess, startServer } from '../support/server-process.ts';
import { asSuperuser, expectNothingLost, expectWholeRecord } from './invariants.ts';
import { admitAndRecord, openWard, type Recorder } from './recorder.ts';
import { type SmallDisk, smallDisk } from './small-disk.ts';

vi.setConfig({ testTimeout: 180_000, hookTimeout: 120_000 });

/** Room for a new cluster, and for what the start and the tests themselves write. */
const DISK_MB = 160;
const BEDS = ['1', '2'];

let disk: SmallDisk;
let settings: Record<string, string>;
let server: ServerProcess;
let recorders: Recorder[];

beforeAll(async () => {
  disk = await smallDisk(DISK_MB);
  settings = {
    SLACKWATER_DATA: disk.folder,
    SLACKWATER_DEMO: '0',
    SLACKWATER_ADMIN: 'administrator:a password for tests',
  };
  server = await startServer(settings);
  const { charge } = await openWard(server.url, BEDS);
  recorders = await Promise.all(BEDS.map((bed) => admitAndRecord(server.url, charge, bed)));
});

afterAll(async () => {
  await disk.free();
  await server.end('SIGKILL');
  await (await startCluster(disk.folder)).stop();
  await disk.remove();
});

/** Each records until it is answered no more, or has recorded so many. */
async function record(most: number): Promise<void> {
  await Promise.all(
    recorders.map((recorder) => {
      let recorded = 0;
      return recorder.workAt(server.url, () => {
        recorded += 1;
        return recorded < most;
      });
    }),
  );
}

const SAY_FULL = `
CREATE FUNCTION say_full() RETURNS trigger LANGUAGE plpgsql AS
  $$ BEGIN RAISE 'could not extend file: No space left on device' USING ERRCODE = 'disk_full'; END $$;
CREATE TRIGGER say_full BEFORE INSERT ON entry EXECUTE FUNCTION say_full()`;

const sql = (text: string) => asSuperuser(disk.folder, (client) => client.query(text));

async function runFull(): Promise<void> {
  if (!disk.isReal) return void (await sql(SAY_FULL));
  // the log has a new segment to write to: what runs out first is the space for tables
  await sql('SELECT pg_switch_wal(); CHECKPOINT');
  await disk.fill();
}

async function makeSpace(): Promise<void> {
  if (disk.isReal) await disk.free();
  else await sql('DROP FUNCTION say_full CASCADE');
}

/** What was not answered is sent again until it is. */
async function goesOn(): Promise<void> {
  await vi.waitFor(
    async () => {
      const before = recorders.reduce((sum, recorder) => sum + recorder.acknowledged().length, 0);
      await record(5);
      const after = recorders.reduce((sum, recorder) => sum + recorder.acknowledged().length, 0);
      if (after < before + 5 * BEDS.length) throw new Error(`${after - before} were recorded.`);
    },
    { timeout: 90_000, interval: 250 },
  );
}

test('a full disk refuses with 503 and says so, keeps all that was told, and goes on when there is space', async () => {
  await record(20);
  await runFull();
  await record(5000);
  for (const recorder of recorders) {
    const detail = expect.stringContaining('nothing was recorded');
    expect(recorder.turnedAway()).toMatchObject({ status: 503, code: 'full', detail, retryAfterS: 10 });
  }
  await makeSpace();
  await goesOn();
  await expectNothingLost(recorders, server.url);
  await expectWholeRecord(disk.folder, settings);
});

/** The log of the database has no segment left to go on in, and none can be made: that ends it. */
const runOutOfLog = () =>
  asSuperuser(disk.folder, async (client) => {
    await disk.fill();
    const log = `SELECT pg_logical_emit_message(true, 'fault-test', repeat('x', 1000000)) FROM generate_series(1, 64)`;
    await expect(client.query(log)).rejects.toThrow(/No space left on device/);
  });

async function killPostmaster(): Promise<void> {
  const [pid = ''] = (await readFile(join(disk.folder, 'pg/postmaster.pid'), 'utf8')).split('\n');
  process.kill(Number(pid), 'SIGKILL');
}

test('a database that ends for want of space, or is killed, is started again by the server as soon as that can be', async () => {
  await record(20);
  await (disk.isReal ? runOutOfLog() : killPostmaster());
  await vi.waitFor(() => expect(server.said()).toContain('The database has died'), 60_000);
  await record(5000);
  await disk.free();
  await goesOn();
  expect(server.said()).toContain('The database runs again');
  await expectNothingLost(recorders, server.url);
  await expectWholeRecord(disk.folder, settings);
});
