/// <reference lib="dom" />
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { EntryPage } from '@slackwater/contract';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenBrowser, openBrowser } from '../support/browser.ts';
import { bedsideOf, touchPool } from './bedside-steps.ts';
import { byLength, filledHoursAgo } from './bedside-ward.ts';
import { eventually, openBoardWard, signInAs } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let folder: string;
let tablet: OpenBrowser;
let bed = 0;

const openTablet = () => openBrowser({ viewport: { width: 1024, height: 768 }, serviceWorkers: 'allow' }, folder);

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

/** A page of the tablet on which somebody has signed in, once the shell is kept for later. */
const openBedside = async (patientId: string, login = 'lindahl', context: BrowserContext = tablet.context) => {
  const page = await context.newPage();
  await context.clearCookies();
  await signInAs(page, ward.origin, login, `/patients/${patientId}/bedside`);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.getByRole('navigation', { name: 'Blocks of this exchange' }).first().waitFor();
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
/** The whole exchange after the preparation, as a nurse taps it. */
const toTheEnd = async (page: Page) => {
  await touchPool(page, 'Connected');
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

describe('without network', () => {
  it('an exchange goes on to its end, waits in sight, and stands in the record once the line is back', async () => {
    const id = await patient();
    const page = await openBedside(id);
    await prepare(page);
    await eventually(() => kindsOf(id)).toEqual(['prepare']);
    await tablet.context.setOffline(true);
    await toTheEnd(page);
    await page.getByText(/Go on\. \d+ entries wait on this device/).waitFor();

    expect(await kindsOf(id)).toEqual(['prepare']);
    await tablet.context.setOffline(false);
    await eventually(async () => (await kindsOf(id)).length).toBe(EXCHANGE.length);
    expect((await kindsOf(id)).toSorted()).toEqual(EXCHANGE.toSorted());
    const { state } = await bedsideOf(ward, id);
    expect(state.lastDwells[0]).toMatchObject({ filledMl: 2000, drainedMl: 1850, drainMinusFillMl: -150 });
    await eventually(() => page.getByText(/on this device/).count()).toBe(0);
    await page.close();
  });
});
