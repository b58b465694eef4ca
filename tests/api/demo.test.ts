import { readFile } from 'node:fs/promises';
import { isPassword } from '@slackwater/api/access/password';
import { buildApp } from '@slackwater/api/app';
import { DEMONSTRATION_PASSWORD } from '@slackwater/api/demo/accounts';
import { chance } from '@slackwater/api/demo/chance';
import { nextAct } from '@slackwater/api/demo/play/next-act';
import { loadScenario } from '@slackwater/api/demo/scenario';
import { seedDemonstration } from '@slackwater/api/demo/seed';
import { patientStory } from '@slackwater/api/demo/story';
import { openSite } from '@slackwater/api/record/open-ward';
import { verify } from '@slackwater/api/record/verify';
import {
  advance,
  type BedsideState,
  DEFAULT_SETTINGS,
  type Entry,
  fold,
  judge,
  MINUTE_MS,
  NO_SUPPLIES,
  type Role,
  STANDARD_FORMULARY,
  type WardPolicy,
  workUpToOpen,
} from '@slackwater/domain';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FreshDatabase, freshDatabase } from '../support/database.ts';
import { runNode } from '../support/server-process.ts';

const SITE = { id: 'alder-point', name: 'Alder Point Hospital' };
const scenario = await loadScenario();
const policy: WardPolicy = {
  version: 1,
  zone: scenario.ward.zone,
  shiftStarts: scenario.ward.shiftStarts,
  formulary: STANDARD_FORMULARY,
  supplies: NO_SUPPLIES,
  settings: DEFAULT_SETTINGS,
  responses: {},
};

let database: FreshDatabase;
let pool: pg.Pool;

beforeAll(async () => {
  database = await freshDatabase();
  pool = new pg.Pool({ connectionString: database.appUrl, options: '-c TimeZone=UTC' });
  pool.on('error', () => undefined);
  await seedDemonstration(pool, SITE, scenario);
});

afterAll(async () => {
  await pool.end();
  await database.drop();
});

const states = async () =>
  (await pool.query<{ bed: string; state: BedsideState }>('SELECT bed, state FROM bedside')).rows;
const stateOf = async (bed: string) => (await states()).find((row) => row.bed === bed)?.state as BedsideState;

describe('the seeded ward', () => {
  test('has 24 patients in 24 beds, and the chain of its record holds', async () => {
    expect(await states()).toHaveLength(24);
    expect((await verify(pool, SITE.id)).faults).toEqual([]);
  });

  test('shows every state of a visit', async () => {
    const visits = (await states()).map(({ state }) => state.visit?.state ?? 'none');
    expect(new Set(visits)).toEqual(new Set(['none', 'preparing', 'connected', 'draining', 'drained', 'filling']));
  });

  test('shows empty and on hold, on hold with fluid, off the ward, and a new admission with an unknown fill', async () => {
    expect((await stateOf('8')).cavity.state).toBe('empty');
    expect((await stateOf('18')).hold?.reason).toBe('Leak at the exit site');
    expect((await stateOf('18')).cavity.state).toBe('empty');
    expect((await stateOf('3')).hold).not.toBeNull();
    expect((await stateOf('3')).cavity.state).toBe('holding');
    expect((await stateOf('16')).stay?.offWard?.where).toBe('imaging');
    expect((await stateOf('21')).cavity.state).toBe('unknown');
    expect((await stateOf('21')).inside.bookMl).toBeNull();
  });

  test('has hourly cycles, icodextrin overnight, a short drain and a cloudy one', async () => {
    expect((await stateOf('12')).due?.rule).toBe('cycle');
    const overnight = (await stateOf('13')).cavity;
    expect(overnight.state === 'holding' && overnight.fills[0]?.solutionId).toBe('icodextrin-7.5');
    expect((await stateOf('20')).alerts.map(({ kind }) => kind)).toContain('drainShort');
    expect((await stateOf('11')).alerts.map(({ kind }) => kind)).toContain('effluentCloudy');
  });

  test('has one suspected peritonitis with its sample on the way, and one concluded days ago', async () => {
    const [open] = (await stateOf('11')).workUps;
    expect(open).toMatchObject({ closed: null, samples: [{ beforeAntibiotic: true }], results: [] });
    const all = (await states()).flatMap(({ state }) => state.workUps);
    expect(all).toHaveLength(2);
    const [past] = (await stateOf('19')).workUps;
    expect(past).toMatchObject({ closed: { conclusion: 'peritonitis' } });
    expect(past?.results).toHaveLength(3);
  });

  test('is signed in to with the password that the console prints', async () => {
    const { rows } = await pool.query<{ password_hash: string }>('SELECT password_hash FROM account');
    expect(rows).toHaveLength(scenario.staff.length);
    expect(await isPassword(DEMONSTRATION_PASSWORD, rows[0]?.password_hash ?? null)).toBe(true);
  });

  test('is not seeded a second time, and keeps the instant of the first', async () => {
    const before = await pool.query('SELECT count(*) FROM entry');
    const first = (await pool.query<{ seeded_at: Date }>('SELECT seeded_at FROM demonstration')).rows[0];
    expect(await seedDemonstration(pool, SITE, scenario)).toBe(first?.seeded_at.getTime());
    expect((await pool.query('SELECT count(*) FROM entry')).rows).toEqual(before.rows);
  });

  test('is marked as invented in the file it comes from', async () => {
    const file = new URL('../../shared/scenario/kestrel-ward.json', import.meta.url);
    expect(JSON.parse(await readFile(file, 'utf8')).about).toMatch(/^Invented scenario/);
  });
});

test('a hospital with real data is never seeded', async () => {
  const real = await freshDatabase();
  const its = new pg.Pool({ connectionString: real.appUrl, options: '-c TimeZone=UTC' });
  its.on('error', () => undefined);
  try {
    await openSite(its, SITE, STANDARD_FORMULARY);
    await its.query(
      `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, created_at)
       VALUES ($1, gen_random_uuid(), 'real', 'Real Person', 'x', now(), now())`,
      [SITE.id],
    );
    await expect(seedDemonstration(its, SITE, scenario)).rejects.toThrow('is not a demonstration');
    expect((await its.query('SELECT FROM patient')).rowCount).toBe(0);
  } finally {
    await its.end();
    await real.drop();
  }
});

describe('the story of each bed', () => {
  const now = Date.UTC(2026, 10, 25, 14, 7);
  const roleOf = (login: string | null): Role => scenario.staff.find((one) => one.login === login)?.role ?? 'nurse';

  test.each(scenario.patients.map((patient) => [patient.bed, patient] as const))(
    'bed %s: every entry would have been accepted at its time',
    (_bed, patient) => {
      const context = { now, policy, chargeNurse: 'adair', nephrologist: 'solberg' };
      const story = patientStory(patient, 'patient', context)
        .filter(({ draft }) => draft.happenedAt <= now)
        .sort((a, b) => a.draft.happenedAt - b.draft.happenedAt);
      const entries: Entry[] = [];
      for (const { draft, author } of story) {
        const { state } = fold('patient', entries, policy);
        const actor = { accountId: author ?? '', role: roleOf(author) };
        // What the tool itself says needs nobody's leave; here it must be what it would have said.
        if (author === null && draft.kind === 'workUpOpened' && patient.peritonitisDaysAgo === undefined) {
          expect(workUpToOpen(state)).toEqual(draft.payload);
        } else if (author !== null && draft.kind !== 'imported') {
          const problems = judge(state, draft, { now: draft.happenedAt, policy, actor });
          expect({ kind: draft.kind, at: new Date(draft.happenedAt).toISOString(), problems }).toMatchObject({
            problems: [],
          });
        }
        const placed = {
          siteId: 's',
          wardId: 'kestrel',
          deviceAt: null,
          receivedAt: now,
          author,
          position: entries.length + 1,
        };
        entries.push({ ...draft, ...placed } as Entry);
      }
    },
    60_000,
  );
});

test('a simulated nurse carries a bed through a whole exchange, touch by touch, and the judge lets each pass', async () => {
  const random = chance(7);
  const begun = await stateOf('14');
  let state = begun;
  let now = (begun.due?.dueAt ?? 0) + MINUTE_MS;
  const entries = [] as Entry[];
  const kinds: string[] = [];
  const { rows } = await pool.query<{ id: string }>(`SELECT id FROM account WHERE login = 'quill'`);
  const actor = { accountId: rows[0]?.id ?? '', role: 'nurse' as Role };
  for (let touch = 0; touch < 12; touch++) {
    const act = nextAct({ state, policy, now, random });
    if (!act) break;
    now += Math.ceil(act.afterMinutes) * MINUTE_MS;
    const timed = nextAct({ state, policy, now, random: chance(touch) });
    for (const draft of timed?.drafts ?? []) {
      expect(judge(state, draft, { now, policy, actor })).toEqual([]);
      const entry = {
        ...draft,
        siteId: 's',
        wardId: 'kestrel',
        deviceAt: now,
        receivedAt: now,
        author: actor.accountId,
        position: 10_000 + entries.length,
      } as Entry;
      entries.push(entry);
      kinds.push(draft.kind);
      const folded = advance(state, entry, policy);
      if (folded === 'refold') throw new Error(`${draft.kind} was not the newest`);
      state = folded.state;
    }
  }
  expect(kinds).toEqual([
    'prepare',
    'connect',
    'startDrain',
    'appearance',
    'comfort',
    'endDrain',
    'measure',
    'startFill',
    'endFill',
    'close',
    'measure',
    'bagFate',
  ]);
  expect(state.cavity.state).toBe('holding');
  expect(state.due?.what).toBe('drain');
  // However fast the nurses are, the dwell keeps its time.
  expect(nextAct({ state, policy, now: (state.due?.soonAt ?? 0) - 1, random })).toBeNull();
});

test('a simulated nurse measures a pressure in whole mmHg before a strong bag, as the form takes it', async () => {
  const state = await stateOf('14');
  const asking = { ...policy, settings: { ...policy.settings, strongBagGlucoseGPerL: 10 } };
  const act = nextAct({ state, policy: asking, now: (state.due?.dueAt ?? 0) + MINUTE_MS, random: chance(3) });
  const pressure = act?.drafts.find((draft) => draft.kind === 'bloodPressure');
  expect(Number.isInteger(pressure?.payload.systolicMmHg)).toBe(true);
});

describe('npm run demo:play', () => {
  let app: Awaited<ReturnType<typeof buildApp>>;
  let url: string;
  beforeAll(async () => {
    const options = { https: false, boardFolder: null, build: 'test', fastify: { logger: false } } as const;
    app = await buildApp({ databaseUrl: database.appUrl, siteId: SITE.id, ...options });
    url = await app.server.listen({ port: 0, host: '127.0.0.1' });
  });
  afterAll(() => app.close());

  const playing = () => runNode('apps/api/src/commands/demo-play.ts', ['--url', url, '--speed', '1000'], {});

  test('works the ward through the public API, with nothing that is refused as misshapen, and ends when told to', async () => {
    const written = async () => (await pool.query<{ n: number }>('SELECT count(*)::int AS n FROM entry')).rows[0]!.n;
    const before = await written();
    const play = playing();
    await expect.poll(() => play.said(), { timeout: 60_000 }).toMatch(/Bed \d+: startFill/);
    expect(await play.end('SIGINT')).toBe(0);
    expect(play.said()).toContain('6 simulated nurses work Kestrel Ward at 1000 times the pace of a real visit');
    expect(play.said()).not.toContain('not written (invalid)');
    expect(await written()).toBeGreaterThan(before);
  }, 90_000);

  test('refuses what is not marked as a demonstration, and writes nothing', async () => {
    const owner = new pg.Client({ connectionString: database.ownerUrl });
    await owner.connect();
    await owner.query('DELETE FROM demonstration').finally(() => owner.end());
    const play = playing();
    await expect.poll(() => play.child.exitCode, { timeout: 60_000 }).toBe(1);
    expect(play.said()).toContain('This database is not marked as a demonstration: nobody plays with it.');
    expect(play.said()).not.toContain('Bed ');
  }, 90_000);
});
