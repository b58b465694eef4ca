/// <reference lib="dom" />
import { gzipSync } from 'node:zlib';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openBrowser } from '../support/browser.ts';
import { byLength, filledHoursAgo, WARD } from './bedside-ward.ts';
import {
  accessFaults,
  eventually,
  expectAccessible,
  openBoardWard,
  SIZES,
  signInAs,
  troubleOf,
  useTheme,
  wordsIn,
} from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];

beforeAll(async () => {
  ward = await openBoardWard();
});
afterAll(() => ward.close());
beforeEach(async () => {
  page = await ward.context.newPage();
  trouble = troubleOf(page);
  await useTheme(page, 'light');
  return () => page.close();
});

const row = (bed: string) => page.locator(`li[data-bed="${bed}"]`);
const minutesIn = async (timer: Locator) => Number.parseInt(await wordsIn(timer), 10);

/** A board in a browser of its own, which nobody touches from the moment at which all of it is loaded. */
async function boardLeftAlone() {
  const { context, close } = await openBrowser({ viewport: { width: 1440, height: 900 } });
  const board = await context.newPage();
  let requests: string[] = [];
  board.on('request', (request) => requests.push(request.url()));
  await signInAs(board, ward.origin, 'adair');
  await board.locator('[data-stream="live"]').waitFor();
  // What stands beside the board is loaded a moment after it.
  for (; requests.length > 0; await board.waitForTimeout(3000)) requests = [];
  const timer = board.locator('li[data-bed="14"]').getByRole('timer');
  return { timer, before: await minutesIn(timer), requests: () => requests, close };
}

const group = (name: string) => page.getByRole('region', { name: new RegExp(`^\\d+ ${name}$`) });

describe('before the first patient', () => {
  it('the empty chart stands, says what will stand where, and how to begin', async () => {
    await signInAs(page, ward.origin, 'adair');
    await eventually(() => group('Within the hour').innerText()).toContain('Drains of the next 60 min.');
    expect(await page.getByRole('link', { name: 'Admit the first patient' }).getAttribute('href')).toBe(
      `/ward/${WARD}/admit`,
    );
    expect(await accessFaults(page)).toEqual([]);
    expect(trouble).toEqual([]);
  });
});

describe('with patients', () => {
  let alone: ReturnType<typeof boardLeftAlone>;
  beforeAll(async () => {
    const fourHours = byLength('glucose-1.36', 2000, 240);
    // Filled nine hours ago for four: overdue and high. Four and a bit less: due. Three and a half: within the hour.
    await ward.admit({ family: 'TREVANION', given: 'Mavis', bed: '17', inside: filledHoursAgo(9), items: [fourHours] });
    await ward.admit({
      family: 'NAKASHIMA',
      given: 'Ren',
      bed: '22',
      inside: filledHoursAgo(4.05),
      items: [fourHours],
    });
    const inside = filledHoursAgo(3.5);
    await ward.admit({ family: 'OYELARAN', given: 'Tunde', bed: '14', inside, items: [fourHours] });
    await ward.admit({ family: 'HARGROVE', given: 'Della', bed: '4', inside: filledHoursAgo(1), items: [fourHours] });
    await ward.admit({ family: 'HARGREAVE', given: 'Dora', bed: '10', inside: filledHoursAgo(1), items: [fourHours] });
    await ward.admit({ family: 'SANDERLING-REYES', given: 'Ida', bed: '21', inside: { cavity: 'notKnown' } });
    await ward.admit({ family: 'THISTLEWOOD', given: 'Joan', bed: '8', inside: { cavity: 'empty' } });
    // a name that leaves no room for a date in its line
    await ward.admit({ family: 'FERREIRA-LOMAX', given: 'Benedita', bed: '2', inside: { cavity: 'empty' } });
    alone = boardLeftAlone();
  });
  afterAll(async () => (await alone).close());

  it('stand in four groups, each with countdown, state, bed, two identifiers, what is inside and when', async () => {
    await signInAs(page, ward.origin, 'adair');
    for (const [name, bed, patient] of [
      ['Now', '17', 'TREVANION, Mavis'],
      ['Now', '22', 'NAKASHIMA, Ren'],
      ['Within the hour', '14', 'OYELARAN, Tunde'],
      ['Later', '4', 'HARGROVE, Della'],
      ['Empty', '8', 'THISTLEWOOD, Joan'],
    ] as const) {
      expect(await wordsIn(group(name).locator(row(bed)))).toContain(patient);
    }
    const overdue = await wordsIn(row('17'));
    // due five hours ago: a word and a positive number, never a minus sign
    expect(overdue).toMatch(/5 ?h ?0\d ?min overdue \d\d:\d\d/);
    expect(overdue).toContain('17-May-1953');
    expect(overdue).toMatch(/AP [0-9a-f]{6}/);
    expect(overdue).toContain('2,000 mL');
    expect(await wordsIn(row('14').getByRole('timer'))).toMatch(/^(29|30)\s*min$/);
    expect(await row('14').getByRole('img').getAttribute('aria-label')).toMatch(/^Dwelling, drain due \d\d:\d\d$/);
    expect(trouble).toEqual([]);
  });

  it('mark like names on both, and never turn what is not known into a number', async () => {
    await signInAs(page, ward.origin, 'lindahl');
    expect(await wordsIn(row('4'))).toContain('name like Bed 10');
    expect(await wordsIn(row('10'))).toContain('name like Bed 4');
    expect(await wordsIn(row('21'))).toContain('volume unknown');
    expect(await wordsIn(row('21'))).not.toMatch(/\b0 mL/);
  });

  it('answer in words who needs somebody, who is next, who is in trouble', async () => {
    await signInAs(page, ward.origin, 'adair');
    const words = (await page.getByRole('region', { name: 'What falls due' }).innerText()).replace(/\s+/g, ' ');
    expect(words).toMatch(/Longest over: Bed 17, 5 h( 0\d min)?/);
    expect(words).toMatch(/Next Bed 14 in (29|30) min/);
    await eventually(() => page.getByRole('region', { name: 'What falls due' }).innerText()).toContain(
      'Bed 17: nobody has it.',
    );
  });

  it('open with the keyboard alone: the whole row leads to the bedside, what is inside to how it came about', async () => {
    await signInAs(page, ward.origin, 'lindahl');
    const link = row('14').getByRole('link', { name: /OYELARAN/ });
    // the ring shows for who comes by keyboard
    await link.focus();
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Tab');
    expect(await link.evaluate((element) => getComputedStyle(element, '::after').outlineStyle)).toBe('solid');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/patients\/[0-9a-f-]+\/bedside$/);
    await page.goBack();
    await row('14')
      .getByRole('link', { name: /2,000 mL.*how that came about/ })
      .click();
    await page.waitForURL(/\/patients\/[0-9a-f-]+\/inside$/);
  });

  it('list the bags to warm, two hours ahead', async () => {
    await signInAs(page, ward.origin, 'lindahl');
    await page.getByRole('button', { name: /^Warm by \d\d:\d\d/ }).click();
    const table = page.getByRole('dialog', { name: /^Bags to warm by/ }).getByRole('table');
    expect((await table.innerText()).replace(/\s+/g, ' ')).toMatch(/\d\d:\d\d 14 2,000 mL 1\.5 %/);
    await page.keyboard.press('Escape');
    await eventually(() => page.getByRole('dialog').count()).toBe(0);
  });

  it.each(SIZES)('show every name whole and never scroll sideways at $width px', async ({ width, height }) => {
    await page.setViewportSize({ width, height });
    await signInAs(page, ward.origin, 'adair');
    const cut = await page.locator('li[data-bed] a').evaluateAll((links) =>
      links
        .filter((link) => {
          const cell = link.getBoundingClientRect();
          const texts = [...link.querySelectorAll('span:not(.sr)')].map((text) => text.getBoundingClientRect());
          // what a screen of this width leaves out has no width
          const isCut = ({ left, right, width }: DOMRect) =>
            width > 0 && (right > cell.right + 1 || left < cell.left - 1);
          return texts[0] === undefined || texts[0].width === 0 || texts.some(isCut);
        })
        .map((link) => link.textContent),
    );
    expect(cut).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });

  it('meet WCAG 2.2 AA in every theme, on a desk, a tablet and a phone', async () => {
    await signInAs(page, ward.origin, 'adair');
    await expectAccessible(page);
    expect(trouble).toEqual([]);
  });

  it('cost at most 170 kB of script, packed, to the first board', async () => {
    await signInAs(page, ward.origin, 'adair');
    const fresh = await ward.context.newPage();
    const scripts: Promise<Buffer | null>[] = [];
    fresh.on('response', (response) => {
      if (response.request().resourceType() !== 'script') return;
      // What comes after the board may meet a page that is closed.
      scripts.push(response.body().catch(() => null));
    });
    await fresh.goto(`${ward.origin}/ward/${WARD}`);
    await fresh.locator('li[data-bed]').first().waitFor();
    const toTheBoard = await Promise.all(scripts);
    expect(toTheBoard).not.toContain(null);
    const packed = toTheBoard.reduce((sum, body) => sum + gzipSync(body ?? '').length, 0);
    await fresh.close();
    expect(packed).toBeGreaterThan(10_000);
    expect(packed).toBeLessThanOrEqual(170_000);
  });

  // Last: its minute has passed while the others ran. A real one: a page whose clock is pushed ahead measures it anew
  // at the next beat, which is a request.
  it('count down by themselves, each minute, without another request', async () => {
    const { timer, before, requests } = await alone;
    await expect.poll(() => minutesIn(timer), { timeout: 90_000 }).toBeLessThan(before);
    expect(requests()).toEqual([]);
  }, 150_000);
});
