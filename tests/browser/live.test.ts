import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import { assign, eventually, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let mavis: string;

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-1.36', 2000, 240)];
  mavis = await ward.admit({ family: 'TREVANION', given: 'Mavis', bed: '17', inside: filledHoursAgo(1), items });
});
afterAll(() => ward.close());
beforeEach(async () => {
  page = await ward.context.newPage();
  return async () => {
    await ward.context.setOffline(false);
    await page.close();
  };
});

const row = (on: Page = page) => on.locator('li[data-bed="17"]');
const live = (on: Page = page) => on.locator('[data-stream="live"]').waitFor();

describe('a board that somebody else’s entry changes', () => {
  it('follows without a reload, and says when it last changed', async () => {
    const trouble = troubleOf(page);
    await signInAs(page, ward.origin, 'adair');
    await live();
    await page.evaluate('window.notReloaded = true');
    const patientId = mavis;
    await (await ward.as('okoro')).record(draft('leftWard', { where: 'imaging', backAbout: null }, { patientId }));
    await eventually(() => row().innerText()).toContain('off the ward');
    await (await ward.as('okoro')).record(draft('returned', {}, { patientId }));
    await eventually(() => row().innerText()).not.toContain('off the ward');
    expect(await page.getByRole('banner').innerText()).toMatch(/Live\s+changed \d\d:\d\d/);
    expect(await page.evaluate('window.notReloaded')).toBe(true);
    expect(trouble).toEqual([]);
  });

  it('counts right within a moment of waking, though the device’s clock stood still while it slept', async () => {
    await page.addInitScript(() => {
      const now = performance.now.bind(performance);
      let stoodStillMs = 0;
      performance.now = () => now() - stoodStillMs;
      Object.assign(window, {
        sleep: (ms: number) => {
          stoodStillMs += ms;
        },
      });
    });
    await signInAs(page, ward.origin, 'adair');
    await live();
    const minutes = async () => {
      const [hours = 0, rest = 0] = ((await row().getByRole('timer').innerText()).match(/\d+/g) ?? []).map(Number);
      return hours * 60 + rest;
    };
    await eventually(minutes).toBeGreaterThan(120);
    const before = await minutes();
    // Whatever the stream says next comes too late: what is asked on waking must do.
    await page.route('**/stream', (route) => route.abort());
    await page.evaluate('window.sleep(2 * 3_600_000)');
    // Two hours behind, it would count on from two hours more.
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await eventually(async () => Math.abs((await minutes()) - before)).toBeLessThanOrEqual(1);
  });

  it('loses a patient who is discharged, and gains one who is admitted', async () => {
    await signInAs(page, ward.origin, 'adair');
    await live();
    const id = await ward.admit({ family: 'VOSKUIL', given: 'Annelies', bed: '20', inside: { cavity: 'empty' } });
    await page.locator('li[data-bed="20"]').waitFor();
    const home = { to: 'home', handover: null };
    await (await ward.as('adair')).record(draft('discharged', home, { patientId: id }));
    await eventually(() => page.locator('li[data-bed="20"]').count()).toBe(0);
  });

  it('keeps one stream for all tabs of a browser; when the one that listens closes, the next goes on', async () => {
    const streams: string[] = [];
    ward.context.on('request', (request) => {
      if (request.url().endsWith('/stream')) streams.push(request.url());
    });
    await signInAs(page, ward.origin, 'adair');
    await live();
    const second = await ward.context.newPage();
    await second.goto(`${ward.origin}/ward/${WARD}`);
    await live(second);
    expect(streams).toHaveLength(1);
    await assign(ward, mavis, 'Lindahl');
    await eventually(() => row(second).innerText()).toContain('Lindahl');
    await page.close();
    await eventually(() => streams.length).toBe(2);
    await assign(ward, mavis, 'Okoro');
    await eventually(() => row(second).innerText()).toContain('Okoro');
    await second.close();
    page = await ward.context.newPage();
  });
});

describe('a board that hears nothing', () => {
  it('says that it is reconnecting, goes on counting, and catches up with what it missed', async () => {
    await signInAs(page, ward.origin, 'adair');
    await live();
    await ward.context.setOffline(true);
    await page.evaluate('window.dispatchEvent(new Event("offline"))');
    await ward.app.live.endStreams();
    await page.locator('[data-stream="reconnecting"]').waitFor();
    expect(await row().getByRole('timer').isVisible()).toBe(true);
    await assign(ward, mavis, 'Lindahl');
    await ward.context.setOffline(false);
    await live();
    await eventually(() => row().innerText()).toContain('Lindahl');
  });

  it('is stale after 30 s: countdowns give way to due times, and the words say since when', async () => {
    await page.clock.install();
    await signInAs(page, ward.origin, 'adair');
    await live();
    await ward.context.setOffline(true);
    await ward.app.live.endStreams();
    await page.clock.runFor(31_000);
    await page.locator('[data-stream="stale"]').waitFor();
    expect(await page.getByRole('banner').innerText()).toMatch(/Stale since \d\d:\d\d/);
    expect(await row().getByRole('timer').isVisible()).toBe(false);
    expect(await row().innerText()).toMatch(/\d\d:\d\d/);
    await ward.context.setOffline(false);
    await page.clock.runFor(10_000);
    await live();
    expect(await row().getByRole('timer').isVisible()).toBe(true);
  });

  it('takes everything anew when the database is another', async () => {
    await signInAs(page, ward.origin, 'adair');
    await live();
    const whole = page.waitForRequest((request) => request.url().endsWith(`/api/wards/${WARD}/board`));
    await page.evaluate(
      `new BroadcastChannel('slackwater /api/wards/${WARD}/stream').postMessage({ type: 'beat', beat: {
        epoch: 'restored', position: 1, serverAt: Date.now(), build: 'test', alarmsThrough: Date.now() }, ageMs: 0 })`,
    );
    await whole;
    await eventually(() => row().count()).toBe(1);
  });

  it('says that nobody watches the clock when the alarms stand still, and that a newer version is ready', async () => {
    await signInAs(page, ward.origin, 'adair');
    await live();
    const { epoch, position } = await (await ward.as('adair')).get<{ epoch: string; position: number }>(
      `/api/wards/${WARD}/board`,
    );
    await page.evaluate(
      `new BroadcastChannel('slackwater /api/wards/${WARD}/stream').postMessage({ type: 'beat', beat: {
        epoch: '${epoch}', position: ${position}, serverAt: Date.now(), build: 'newer', alarmsThrough: Date.now() - 45000 }, ageMs: 0 })`,
    );
    await page.getByText('Nobody watches the clock since').waitFor();
    await page.getByText('A newer version is ready.').waitFor();
  });
});
