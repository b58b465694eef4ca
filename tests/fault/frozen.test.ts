// One of two processes of a ward stands still in the middle of a sweep, holding what it has taken: the other goes on, the
// alarm comes once, and the first goes on too when it wakes.
import { setTimeout } from 'node:timers/promises';
import pg from 'pg';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { type ServerProcess, startServer } from '../support/server-process.ts';
import { admitAndRecord, openWard, type Signed } from './recorder.ts';
import { admitNearlyOverdue } from './storm/due-patient.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

let database: FreshDatabase;
let superuser: pg.Client;
let sleeper: ServerProcess;
let other: ServerProcess | undefined;

const ALARM_BEDS = ['A1', 'A2', 'A3', 'A4'];

const start = () =>
  startServer({
    DATABASE_URL: database.appUrl,
    SLACKWATER_SITE: 'alder-point',
    SLACKWATER_DEMO: '0',
    SLACKWATER_ADMIN: 'administrator:a password for tests',
  });

beforeAll(async () => {
  database = await freshDatabase();
  superuser = new pg.Client({ connectionString: database.superUrl });
  await superuser.connect();
  sleeper = await start();
});

afterAll(async () => {
  await sleeper.end('SIGKILL');
  await other?.end('SIGKILL');
  await superuser.end();
  await database.drop();
});

async function count(text: string, ...values: readonly unknown[]): Promise<number> {
  const { rowCount } = await superuser.query(text, [...values]);
  return rowCount ?? 0;
}

const WAITING = `SELECT FROM pg_stat_activity WHERE datname = current_database() AND application_name = 'slackwater'
  AND wait_event_type = 'Lock'`;
const HOLDING = `SELECT FROM pg_stat_activity WHERE datname = current_database() AND application_name = 'slackwater'
  AND state = 'idle in transaction'`;
const OVERDUE = `SELECT FROM alert WHERE kind = 'drainOverdue' AND patient_id = $1`;

/** Takes hold of the alerts before this patient's comes: on a machine that is too slow for it, of a next one's. */
async function overdueWithAlertsHeld(charge: Signed, physician: Signed): Promise<string> {
  for (const [index, bed] of ALARM_BEDS.entries()) {
    const patientId = await admitNearlyOverdue(sleeper.url, charge, physician, bed, 1000 * 3 ** index);
    await superuser.query('BEGIN; LOCK TABLE alert IN EXCLUSIVE MODE');
    if ((await count(OVERDUE, patientId)) === 0) return patientId;
    await superuser.query('ROLLBACK');
  }
  throw new Error('Every alert was there before it could be held up.');
}

test('a process that freezes with rows in its hands keeps nobody from recording, and no alarm is missed or doubled', async () => {
  const { charge, physician } = await openWard(sleeper.url, ['1', ...ALARM_BEDS]);
  const recorder = await admitAndRecord(sleeper.url, charge, '1');
  /** Five more, sent again where a connection was lost meanwhile. */
  const record = async (at: string) => {
    const wanted = recorder.acknowledged().length + 5;
    while (recorder.acknowledged().length < wanted) {
      await recorder.workAt(at, () => recorder.acknowledged().length < wanted);
      await setTimeout(20);
    }
  };
  await record(sleeper.url);

  // its sweep has the patient's row and the ward's counter, and waits for the alerts
  const patientId = await overdueWithAlertsHeld(charge, physician);
  await expect.poll(() => count(WAITING)).toBeGreaterThan(0);
  sleeper.child.kill('SIGSTOP');
  await superuser.query('ROLLBACK');
  await expect.poll(() => count(HOLDING)).toBeGreaterThan(0);

  other = await start();
  await record(other.url);
  await expect.poll(() => count(OVERDUE, patientId)).toBe(1);

  sleeper.child.kill('SIGCONT');
  await record(sleeper.url);
  await record(other.url);
  expect(await count(OVERDUE, patientId)).toBe(1);
});
