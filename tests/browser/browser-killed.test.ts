// The browser of a tablet killed (SIGKILL) in the middle of recording, with its user folder kept: whatever the nurse
// touched stands in the record exactly once after the next start.
import { execFileSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { EntryPage } from '@slackwater/contract';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Network, openNetwork } from '../fault/storm/network.ts';
import { type OpenBrowser, openBrowser } from '../support/browser.ts';
import { touchPool } from './bedside-steps.ts';
import { byLength, filledHoursAgo, PASSWORD } from './bedside-ward.ts';
import { eventually, openBoardWard } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let network: Network;
let folder: string;
let tablet: OpenBrowser;

beforeAll(async () => {
  ward = await openBoardWard();
  network = await openNetwork(Number(new URL(ward.origin).port));
  folder = await mkdtemp(join(tmpdir(), 'slackwater-killed-tablet-'));
  tablet = await openTablet();
});
afterAll(async () => {
  await tablet.close();
  network.close();
  await ward.close();
  await rm(folder, { recursive: true, force: true });
});

const openTablet = () => openBrowser({ viewport: { width: 1024, height: 768 }, serviceWorkers: 'allow' }, folder);

/** Linux says it in files: a bare one has no `ps`. */
async function processesNaming(word: string): Promise<readonly number[]> {
  if (process.platform !== 'linux') {
    const lines = execFileSync('ps', ['-ewwo', 'pid=,args='], { encoding: 'utf8' }).split('\n');
    return lines.filter((line) => line.includes(word)).map((line) => Number.parseInt(line, 10));
  }
  const pids = (await readdir('/proc')).filter((name) => /^\d+$/.test(name));
  // one that ended meanwhile names nothing any more
  const lines = await Promise.all(pids.map((pid) => readFile(`/proc/${pid}/cmdline`, 'utf8').catch(() => '')));
  return pids.filter((_, index) => lines[index]!.includes(word)).map(Number);
}

/** Kills every process of the tablet's browser, which its user folder names. */
async function killBrowser(): Promise<void> {
  const closed = tablet.context.waitForEvent('close');
  for (const pid of await processesNaming(folder)) {
    try {
      process.kill(pid, 'SIGKILL');
    } catch {
      // it went with the one before
    }
  }
  await closed;
}

/** The bedside, after the sign-in where the tablet asks for one. */
async function openBedside(patientId: string): Promise<Page> {
  const page = await tablet.context.newPage();
  await page.goto(`${network.url}/patients/${patientId}/bedside`);
  const blocks = page.getByRole('navigation', { name: 'Blocks of this exchange' }).first();
  const badge = page.getByLabel('Name on your badge');
  await blocks.or(badge).first().waitFor();
  if (await badge.isVisible()) {
    await badge.fill('lindahl');
    await page.getByLabel('Password').fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await blocks.waitFor();
  }
  return page;
}

const patient = (bed: string): Promise<string> =>
  ward.admit({
    family: `PENROSE${'ABC'[Number(bed) - 1]}`,
    given: 'Isolde',
    bed,
    inside: filledHoursAgo(4.5),
    items: [byLength('glucose-2.27', 2000, 270)],
  });

const kindsOf = async (patientId: string) => {
  const person = await ward.as('lindahl');
  const { entries } = await person.get<EntryPage>(`/api/patients/${patientId}/entries?limit=100`);
  return entries
    .filter(({ author, kind }) => author !== null && kind !== 'admitted' && kind !== 'prescribed')
    .map(({ kind }) => kind)
    .toReversed();
};

const prepare = async (page: Page) => {
  const bag = page.getByRole('button', { name: /^2\.5 %, ?2,000 ?mL$/ }).first();
  await bag.click();
  await page.getByRole('button', { name: /All six are right/ }).click();
};

it('before the statement: the touch waited on the tablet alone, and goes out after the restart', async () => {
  const id = await patient('1');
  const page = await openBedside(id);
  network.disturb('heldBefore');
  await prepare(page);
  await eventually(() => network.isThrough()).toBe(true);
  await killBrowser();
  expect(await kindsOf(id)).toEqual([]);

  tablet = await openTablet();
  const again = await openBedside(id);
  await eventually(() => kindsOf(id)).toEqual(['prepare']);
  await touchPool(again, 'Connected');
  await eventually(() => kindsOf(id)).toEqual(['prepare', 'connect', 'startDrain']);
});

it('after the commit and before the answer: what stands in the record is not written twice', async () => {
  const id = await patient('2');
  const page = await openBedside(id);
  await prepare(page);
  await eventually(() => kindsOf(id)).toEqual(['prepare']);
  network.disturb('heldAfter');
  await touchPool(page, 'Connected');
  await eventually(() => kindsOf(id)).toEqual(['prepare', 'connect', 'startDrain']);
  await killBrowser();

  tablet = await openTablet();
  const again = await openBedside(id);
  await again.getByRole('button', { name: /^Stopped: clear/ }).click();
  await eventually(async () => (await kindsOf(id)).length).toBe(6);
  expect((await kindsOf(id)).toSorted()).toEqual(
    ['prepare', 'connect', 'startDrain', 'appearance', 'comfort', 'endDrain'].toSorted(),
  );
  await eventually(() => again.getByText(/on this device/).count()).toBe(0);
});
