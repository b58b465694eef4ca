/// <reference lib="dom" />
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { EntryPage } from '@slackwater/contract';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { type OpenBrowser, openBrowser } from '../support/browser.ts';
import { type ServerProcess, startServer } from '../support/server-process.ts';
import { bedsideOf, carryTo, touchPool } from './bedside-steps.ts';
import { byLength, filledHoursAgo, PASSWORD, WARD } from './bedside-ward.ts';
import { eventually, openBoardWard, signInAs } from './board-page.ts';
import { movableClock, passTime } from './device-clock.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let folder: string;
let tablet: OpenBrowser;
let bed = 0;

/** A device that somebody has set to another zone than the ward's: whatever it shows is the ward's time all the same. */
const openTablet = () =>
  openBrowser({ viewport: { width: 1024, height: 768 }, serviceWorkers: 'allow', timezoneId: 'Asia/Tokyo' }, folder);

beforeAll(async () => {
  ward = await openBoardWard();
  folder = await mkdtemp(join(tmpdir(), 'slackwater-tablet-'));
  tablet = await openTablet();
});
afterAll(async () => {
  await tablet.close();
  await ward.close();
  await rm(folder, { recursive: true, force: true });
});

afterEach(async () => {
  await tablet.context.setOffline(false);
  for (const page of tablet.context.pages()) await page.close();
});

const patient = (): Promise<string> => {
  bed += 1;
  return ward.admit({
    family: `BRANNOCK${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[bed]}`,
    given: 'Isolde',
    bed: String(bed),
    inside: filledHoursAgo(4.5),
    items: [byLength('glucose-2.27', 2000, 270), byLength('glucose-1.36', 2000, 270)],
  });
};

/** Waits until the device has what it needs to open this bedside without network. */
const keptHere = (page: Page, patientId: string) =>
  page.waitForFunction(async (id) => {
    const open = indexedDB.open('slackwater');
    const names = await new Promise<string[]>((done) => {
      open.onsuccess = () => {
        const keys = open.result.transaction('views').objectStore('views').getAllKeys();
        keys.onsuccess = () => done((keys.result as [string, string][]).map(([, name]) => name));
      };
    });
    open.result.close();
    return [`["patient","${id}","bedside"]`, '["session"]'].every((name) => names.includes(name));
  }, patientId);

/** A page of the tablet on which somebody has signed in, once shell and bedside are kept for later. */
const openBedside = async (patientId: string, login = 'lindahl', context: BrowserContext = tablet.context) => {
  const page = await context.newPage();
  // The device's own cookie stays: it is the same device.
  await context.clearCookies({ name: 'slackwater' });
  await signInAs(page, ward.origin, login, `/patients/${patientId}/bedside`);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.getByRole('navigation', { name: 'Blocks of this exchange' }).first().waitFor();
  await keptHere(page, patientId);
  return page;
};
const button = (page: Page, name: RegExp | string) => page.getByRole('button', { name });
const entriesOf = async (patientId: string) =>
  (await (await ward.as('lindahl')).get<EntryPage>(`/api/patients/${patientId}/entries?limit=100`)).entries;
const kindsOf = async (patientId: string) =>
  (await entriesOf(patientId))
    .filter(({ author, kind }) => author !== null && kind !== 'admitted' && kind !== 'prescribed')
    .map(({ kind }) => kind)
    .toReversed();

const prepare = async (page: Page) => {
  await button(page, /^2\.5 %, ?2,000 ?mL$/)
    .first()
    .click();
  await button(page, /All six are right/).click();
};
/** The exchange from the running drain on, as a nurse taps it. */
const toTheEnd = async (page: Page) => {
  await button(page, /^Stopped: clear/).click();
  await page.getByLabel('Full drain bag').fill('1948');
  await page.getByLabel('Empty bag').fill('98');
  await button(page, /Keep 1,850 mL/).click();
  await button(page, /fill has started/).click();
  await button(page, 'All 2,000 mL are in').click();
  await touchPool(page, 'Closed');
};
const EXCHANGE = [
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
];

describe('the network cut in the middle', () => {
  it('an exchange goes on to its end, waits in sight, and stands in the record once the line is back', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await tablet.context.setOffline(true);
    await touchPool(page, 'Connected');
    await toTheEnd(page);
    await page.getByText(/Go on\. 9 entries wait on this device/).waitFor();
    expect(await kindsOf(id)).toEqual(['prepare']);
    await tablet.context.setOffline(false);
    await eventually(async () => (await kindsOf(id)).length).toBe(EXCHANGE.length);
    expect((await kindsOf(id)).toSorted()).toEqual(EXCHANGE.toSorted());
    const { state } = await bedsideOf(ward, id);
    // By hand: 1,948 − 98 = 1,850; 1,850 − 2,000 = −150.
    expect(state.lastDwells[0]).toMatchObject({ filledMl: 2000, drainedMl: 1850, drainMinusFillMl: -150 });
    await eventually(() => page.getByText(/on this device/).count()).toBe(0);
    await page.close();
  });

  it('what may not be recorded is refused here as there; what waits is undone like any touch', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await page.locator('button:not([aria-disabled])', { hasText: 'Undo' }).first().waitFor();
    await tablet.context.setOffline(true);
    // The preparation stands in the record: to undo it takes the record.
    await button(page, 'Undo').first().click();
    await page.getByText(/what stands in the record is corrected or undone there/).waitFor();
    await button(page, 'Close').click();
    await touchPool(page, 'Connected');
    await button(page, /^Stopped: clear/).click();
    await page.getByLabel('Full drain bag').waitFor();
    await button(page, 'Undo').first().click();
    await button(page, /^Stopped: clear/).waitFor();
    await tablet.context.setOffline(false);
    const undone = async () => (await entriesOf(id)).filter(({ retractedBy }) => retractedBy !== null);
    await eventually(async () => (await undone()).map(({ kind }) => kind).toSorted()).toEqual([
      'appearance',
      'comfort',
      'endDrain',
    ]);
    expect((await bedsideOf(ward, id)).state.visit).toMatchObject({ state: 'draining' });
    await page.close();
  });
});

describe('signing out while something waits', () => {
  it('warns, leaves it sealed on the device, and it goes out when its author signs in, and nobody else', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await tablet.context.setOffline(true);
    await prepare(page);
    await button(page, '1 on this device').waitFor();
    // Held up on its way, so that it is still here when its author leaves: it goes as soon as there is a line.
    await page.route('**/api/outbox', (route) => route.abort());
    await tablet.context.setOffline(false);
    await page.goto(`${ward.origin}/ward/${WARD}`);
    await button(page, /^Lindahl/).click();
    await page.getByRole('button', { name: 'Sign out', exact: true }).click();
    await page.getByText('1 entry of yours waits on this device and is not in the record.').waitFor();
    await button(page, 'Sign out, leave 1 entry here').click();
    await page.getByText(/1 entry of Signe Lindahl waits here, sealed, and goes out when/).waitFor();
    await page.unrouteAll();
    const clear = await page.evaluate(async () => {
      const open = indexedDB.open('slackwater');
      const db = await new Promise<IDBDatabase>((done) => {
        open.onsuccess = () => done(open.result);
      });
      const read = (name: string) =>
        new Promise<unknown[]>((done) => {
          const all = db.transaction(name).objectStore(name).getAll();
          all.onsuccess = () => done(all.result);
        });
      const [keys, views, touches] = [await read('keys'), await read('views'), await read('touches')];
      const { sealed, iv: _, ...said } = touches[0] as { sealed: ArrayBuffer; iv: unknown };
      return { keys: keys.length, views: views.length, said, text: new TextDecoder('latin1').decode(sealed) };
    });
    expect(clear).toMatchObject({ keys: 0, views: 0, said: { accountName: 'Signe Lindahl', entries: 1, format: 2 } });
    expect(clear.text).not.toMatch(/prepare|glucose/);

    const others = await openBedside(id, 'okoro');
    await others.getByText('1 of others here').waitFor();
    expect(await kindsOf(id)).toEqual([]);
    await others.close();
    const back = await openBedside(id, 'lindahl');
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await back.close();
    await page.close();
  });
});

describe('a server without space on its disk', () => {
  it('says so while what is touched waits on the device, and has it once there is space', async () => {
    const id = await patient();
    const page = await openBedside(id);
    const database = new pg.Client({ connectionString: ward.database.superUrl });
    await database.connect();
    const makeSpace = () => database.query('DROP FUNCTION IF EXISTS say_full CASCADE');
    onTestFinished(async () => {
      await makeSpace();
      await database.end();
    });
    // what Postgres says when it finds no space for a row; `fault/full-disk.test.ts` has it meet a real full disk
    await database.query(`CREATE FUNCTION say_full() RETURNS trigger LANGUAGE plpgsql AS
      $$ BEGIN RAISE 'could not extend file: No space left on device' USING ERRCODE = 'disk_full'; END $$;
      CREATE TRIGGER say_full BEFORE INSERT ON entry EXECUTE FUNCTION say_full()`);
    await prepare(page);
    await page.getByText('1 entry waits on this device. There is no space left on the disk of the server').waitFor();
    await touchPool(page, 'Connected');
    await page.getByText('3 entries wait on this device. There is no space left on the disk of the server').waitFor();
    expect(await kindsOf(id)).toEqual([]);
    await makeSpace();
    await eventually(() => kindsOf(id)).toEqual(['prepare', 'connect', 'startDrain']);
    await eventually(() => page.getByText(/on this device/).count()).toBe(0);
    await page.close();
  });
});

describe('a queue of another format', () => {
  it('of an earlier build is read and sent; of a newer one it is kept untouched, and said', async () => {
    const id = await patient();
    const page = await openBedside(id);
    const draft = {
      id: crypto.randomUUID(),
      kind: 'weight',
      format: 1,
      payload: { weightKg: 70.5, cavity: 'full' },
      patientId: id,
      visitId: null,
      happenedAt: Date.now() - 3_600_000,
      after: null,
    };
    await page.evaluate(
      async ([draft, wardId]) => {
        const open = indexedDB.open('slackwater');
        const db = await new Promise<IDBDatabase>((done) => {
          open.onsuccess = () => done(open.result);
        });
        // biome-ignore lint/suspicious/noExplicitAny: rows of the browser's own database
        const get = (store: string, key?: string): Promise<any> =>
          new Promise((done) => {
            const from = db.transaction(store).objectStore(store);
            const asked = key === undefined ? from.getAll() : from.get(key);
            asked.onsuccess = () => done(asked.result);
          });
        const [{ accountId, name, key }] = await get('keys');
        const device = await get('notes', 'device');
        const bytes = new TextEncoder();
        for (const format of [1, 99]) {
          const iv = crypto.getRandomValues(new Uint8Array(12));
          const additionalData = bytes.encode(JSON.stringify([accountId, device, format, 'touch']));
          const touch = { wardId, patientId: draft.patientId, drafts: [draft], writtenAt: draft.happenedAt };
          const text = bytes.encode(JSON.stringify(touch));
          const sealed = await crypto.subtle.encrypt({ name: 'AES-GCM', iv, additionalData }, key, text);
          const row = { iv, sealed, format, accountId, accountName: name, entries: 1 };
          const put = db.transaction('touches', 'readwrite').objectStore('touches').add(row);
          await new Promise((done) => {
            put.onsuccess = done;
          });
        }
      },
      [draft, WARD] as const,
    );
    await page.reload();
    await eventually(async () => (await entriesOf(id)).find((entry) => entry.id === draft.id)?.payload).toEqual(
      draft.payload,
    );
    await button(page, '1 of others here').click();
    await page.getByText(/1 entry here was written by a newer version of this page and is kept untouched/).waitFor();
    await page.evaluate(
      () =>
        new Promise((done) => {
          const open = indexedDB.open('slackwater');
          open.onsuccess = () => {
            const cleared = open.result.transaction('touches', 'readwrite').objectStore('touches').clear();
            cleared.onsuccess = done;
          };
        }),
    );
    await page.close();
  });
});

describe('two devices at one bed', () => {
  it('what the record refuses is kept on the server; its author decides, or the charge nurse under both names', async () => {
    const [mine, wards] = [await patient(), await patient()];
    const page = await openBedside(mine);
    // Another tab of the same sign-in.
    const other = await tablet.context.newPage();
    await other.goto(`${ward.origin}/patients/${wards}/bedside`);
    for (const one of [page, other])
      await button(one, /^2\.5 %, ?2,000 ?mL$/)
        .first()
        .waitFor();
    await tablet.context.setOffline(true);
    for (const one of [page, other]) {
      await one.bringToFront();
      await prepare(one);
    }
    await other.getByText(/Go on\. \d entries wait/).waitFor();
    for (const id of [mine, wards]) await carryTo(ward, id, 'closed', { as: 'okoro' });
    await tablet.context.setOffline(false);
    await page.getByRole('link', { name: 'Kept for you: 2' }).click();

    const ofMine = page.getByRole('article').filter({ has: page.locator(`a[href*="${mine}"]`) });
    await ofMine.getByText('Another step was recorded first.').waitFor();
    await ofMine.getByLabel(/^Reason/).fill('Okoro did it');
    await ofMine.getByRole('button', { name: 'Discard all' }).click();
    await eventually(() => page.getByRole('article').count()).toBe(1);
    await page.close();
    await other.close();

    const desk = await tablet.context.newPage();
    await tablet.context.clearCookies({ name: 'slackwater' });
    await signInAs(desk, ward.origin, 'adair', `/ward/${WARD}/kept`);
    const ofWard = desk.getByRole('region', { name: 'Kept on the ward' }).getByRole('article');
    await ofWard.getByText('Signe Lindahl').first().waitFor();
    const release = ofWard.getByRole('button', { name: /^Release for Lindahl/ });
    await ofWard.getByLabel(/^Reason/).fill('Lindahl has gone home');
    await release.click();
    await eventually(() => desk.getByRole('article').count()).toBe(0);
    const released = (await entriesOf(wards)).find(({ releasedByName }) => releasedByName !== null);
    expect(released).toMatchObject({ kind: 'prepare', authorName: 'Signe Lindahl', releasedByName: 'Rowan Adair' });
    await desk.goto(`${ward.origin}/patients/${wards}/record`);
    await desk.getByText(/Lindahl, received .*, let in by Rowan Adair/).waitFor();
    await desk.close();
  });
});

describe('a server of its own', () => {
  let server: ServerProcess;
  const settings = () => ({ DATABASE_URL: ward.database.appUrl, SLACKWATER_SITE: 'alder-point' });
  beforeAll(async () => {
    server = await startServer(settings());
  });
  afterAll(() => server.end('SIGKILL'));

  const openHere = async (patientId: string) => {
    const page = await tablet.context.newPage();
    await tablet.context.clearCookies({ name: 'slackwater' });
    await signInAs(page, server.url, 'lindahl', `/patients/${patientId}/bedside`);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.getByRole('navigation', { name: 'Blocks of this exchange' }).first().waitFor();
    await keptHere(page, patientId);
    return page;
  };
  const startAgain = async () => {
    server = await startServer({ ...settings(), PORT: String(server.port) });
  };

  it('killed in the middle, and the device restarted: it opens where it stood, goes on, and nothing is lost or doubled', async () => {
    const id = await patient();
    const page = await openHere(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await server.end('SIGKILL');
    await touchPool(page, 'Connected');
    await button(page, /^Stopped: clear/).click();
    await page.getByText(/Go on\. 5 entries wait/).waitFor();

    await tablet.close();
    tablet = await openTablet();
    const again = await tablet.context.newPage();
    await again.goto(`${server.url}/patients/${id}/bedside`);
    await again.getByText(/Go on\. 5 entries wait on this device/).waitFor();
    await again.getByText(/As of \d\d:\d\d, no network since/).waitFor();
    await again.getByLabel('Full drain bag').fill('1948');
    await again.getByLabel('Empty bag').fill('98');
    await button(again, /Keep 1,850 mL/).click();
    await button(again, /fill has started/).waitFor();
    // The unit board cannot be had, and says so, with the beds that this device can show.
    const board = await tablet.context.newPage();
    await board.goto(`${server.url}/ward/${WARD}`);
    await board.getByText('No connection to the ward’s server').first().waitFor();
    const kept = board.getByRole('listitem').filter({ has: board.getByRole('link', { name: /BRANNOCK/ }) });
    const [, asOf] = /as of (\d\d:\d\d)/.exec(await kept.first().innerText())!;
    // Some minute of the last half hour, in London.
    const wards = new Intl.DateTimeFormat('sv-SE', { timeZone: 'Europe/London', timeStyle: 'short' });
    const minutes = Array.from({ length: 31 }, (_, minutesAgo) => wards.format(Date.now() - minutesAgo * MINUTE_MS));
    expect(minutes).toContain(asOf);
    await board.close();

    await startAgain();
    await again.bringToFront();
    await button(again, '6 on this device').click();
    await again.getByRole('dialog').getByRole('button', { name: 'Try now' }).click();
    await eventually(async () => (await kindsOf(id)).length).toBe(7);
    expect((await kindsOf(id)).toSorted()).toEqual(EXCHANGE.slice(0, 7).toSorted());
    await again.close();
  });

  it('asks for the times when the clock of the device stepped across a restart, and sends them as the person says', async () => {
    const id = await patient();
    await tablet.context.addInitScript(() => {
      const step = Number(localStorage.getItem('test clock step') ?? 0);
      const right = Date.now;
      Date.now = () => right() + step;
    });
    const page = await openHere(id);
    await tablet.context.setOffline(true);
    await prepare(page);
    await button(page, '1 on this device').waitFor();
    const before = Date.now();
    await page.evaluate(() => localStorage.setItem('test clock step', String(-10 * 60_000)));
    await page.reload();
    await page.getByText(/Go on\. 1 entry waits/).waitFor();
    await tablet.context.setOffline(false);
    const question = page.getByRole('dialog', { name: /^When was it\?/ });
    await question.getByRole('button', { name: 'The ward’s clock: 10 min later' }).waitFor();
    expect(await kindsOf(id)).toEqual([]);
    await question.getByRole('button', { name: 'The times as written' }).click();
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    const [entry] = (await entriesOf(id)).filter(({ kind }) => kind === 'prepare');
    expect(Math.abs((entry?.happenedAt ?? 0) - before)).toBeLessThan(5 * 60_000);
    await page.close();
  });
});

describe('a bedside without network that nobody touches', () => {
  const IDLE_MS = 31 * MINUTE_MS;
  beforeAll(() => movableClock(tablet.context));

  /** Says of the person's last touch on this device that it was so long ago. */
  const lastTouched = (page: Page, agoMs: number) =>
    page.evaluate(
      (at) =>
        new Promise((done) => {
          const open = indexedDB.open('slackwater');
          open.onsuccess = () => {
            const put = open.result.transaction('notes', 'readwrite').objectStore('notes').put(at, 'lastActAt');
            put.onsuccess = () => done(null);
          };
        }),
      Date.now() - agoMs,
    );

  it('locks writing once the visit is over, keeps what is typed and what waits, and goes on with the author’s password', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await tablet.context.setOffline(true);
    await touchPool(page, 'Connected');
    // In the middle of a visit hands cannot wait for a line: it goes on however long nobody touched it.
    await lastTouched(page, IDLE_MS);
    await toTheEnd(page);
    await page.getByText(/Go on\. 9 entries wait on this device/).waitFor();

    await passTime(page, IDLE_MS);
    await page.getByText('Kept, for a sample').click();
    await page.getByLabel('Kept where').fill('sluice, second shelf');
    await button(page, /^Finish and sign as Lindahl/).click();
    await page.getByText(/Writing is locked after a time without a touch, and without network no password/).waitFor();
    await page.getByText(/Go on\. 9 entries wait on this device/).waitFor();
    expect(await page.getByLabel('Kept where').inputValue()).toBe('sluice, second shelf');
    // Reading lasts to the end of the session.
    expect(await page.locator('body').innerText()).toContain('BRANNOCK');

    // The server saw the same idle time, and its clock did not go on by itself.
    await passTime(page, -IDLE_MS);
    // of this tablet, not of the colleagues who work through the API
    await ward.app.pool.query(
      "UPDATE session SET last_seen_at = now() - interval '31 minutes' WHERE user_agent LIKE 'Mozilla%'",
    );
    await tablet.context.setOffline(false);
    const question = page.getByRole('dialog', { name: 'Still you?' });
    await question.getByLabel('Password').waitFor();
    expect(await kindsOf(id)).toEqual(['prepare']);
    await question.getByLabel('Password').fill(PASSWORD);
    await page.keyboard.press('Enter');
    await eventually(async () => (await kindsOf(id)).toSorted()).toEqual(EXCHANGE.toSorted());
    await button(page, /^Finish and sign as Lindahl/).click();
    await eventually(() => kindsOf(id)).toContain('bagFate');
    await page.close();
  });

  it('ended on the server while the line stands: “Try now” leads to the sign-in and back, and what waits goes out', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    const pool = button(page, /^Connected/);
    await pool.waitFor();
    // its first second is deaf, and what the step before brought is read meanwhile, still signed in
    await page.waitForTimeout(1500);
    await tablet.context.clearCookies({ name: 'slackwater' });
    await pool.click();
    await page.getByText('or your session has ended').first().waitFor();
    expect(await kindsOf(id)).toEqual(['prepare']);
    await button(page, 'Try now').first().click();
    await page.getByLabel('Name on your badge').fill('lindahl');
    await page.getByLabel('Password').fill(PASSWORD);
    await button(page, 'Sign in').click();
    await page.waitForURL(`${ward.origin}/patients/${id}/bedside`);
    await eventually(async () => (await kindsOf(id)).toSorted()).toEqual(['connect', 'prepare', 'startDrain']);
    await page.close();
  });

  it('shows nobody any more at the end of the session; what waits stays sealed and goes out when its author signs in', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await tablet.context.setOffline(true);
    await touchPool(page, 'Connected');
    await button(page, /^Stopped: clear/).click();
    await page.getByText(/Go on\. 5 entries wait/).waitFor();
    expect(await page.locator('body').innerText()).toContain('BRANNOCK');

    await passTime(page, 12.5 * HOUR_MS + MINUTE_MS);
    await page.getByText(/5 entries of Signe Lindahl wait here, sealed, and go out when/).waitFor();
    expect(await page.locator('body').innerText()).not.toContain('BRANNOCK');
    await page.goto(`${ward.origin}/patients/${id}/bedside`);
    await page.getByRole('heading', { name: 'No connection to the ward’s server' }).waitFor();
    expect(await page.locator('body').innerText()).not.toContain('BRANNOCK');
    expect(await kindsOf(id)).toEqual(['prepare']);
    await page.close();

    await tablet.context.setOffline(false);
    const back = await openBedside(id);
    await eventually(async () => (await kindsOf(id)).toSorted()).toEqual(EXCHANGE.slice(0, 6).toSorted());
    await back.close();
  });
});
