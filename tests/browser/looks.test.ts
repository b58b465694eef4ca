/// <reference lib="dom" />
import { randomBytes } from 'node:crypto';
import type { SupplyChange } from '@slackwater/domain';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import {
  accessFaults,
  expectAccessibleIn,
  openBoardWard,
  SIZES,
  signInAs,
  THEMES,
  themesByTurns,
  troubleOf,
  useTheme,
  widerThanPage,
} from './board-page.ts';

// A pager that nobody answers: its row is drawn, and nothing leaves this machine.
const HOOKS = {
  hooks: [{ url: 'https://127.0.0.1:9/page', key: randomBytes(32), ranks: ['high', 'medium'] as const }],
  inside: ['127.0.0.0/8'],
};

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];
let patientId: string;

beforeAll(async () => {
  ward = await openBoardWard(HOOKS);
  const items = [byLength('glucose-2.27', 2000, 270), byLength('glucose-3.86', 2500, 540)];
  patientId = await ward.admit({
    family: 'SANDERLING-REYES',
    given: 'Ida',
    bed: '21',
    inside: filledHoursAgo(4),
    items,
  });
  await carryTo(ward, patientId, 'drained', {
    appearance: ['cloudy'],
    minutesAgo: { prepare: 40, startDrain: 30, endDrain: 10 },
  });
  const charge = await ward.as('adair');
  const say = (change: SupplyChange) => charge.record(draft('suppliesChanged', { change }, { patientId: null }));
  // GTIN with its check digit, GS1 General Specifications section 7.9
  await say({
    what: 'productListed',
    product: { gtin: '04012345678901', solutionId: 'glucose-2.27', labelledMl: 2000 },
  });
  await say({ what: 'lotRecalled', lot: 'LEAK7', of: { solutionId: 'glucose-2.27' }, reason: 'leaks at the port' });
  page = await ward.context.newPage();
  trouble = troubleOf(page);
});
afterAll(() => ward.close());

type Screen = { name: string; login: string | null; path: () => string; ready: string; open?: () => Promise<void> };

const press = (name: string | RegExp) => async () => {
  await page.getByRole('button', { name }).first().click();
  await page.getByRole('dialog').waitFor();
};
const ofPatient = (screen: string) => () => `/patients/${patientId}/${screen}`;
const ofWard = (screen: string) => () => `/ward/${WARD}${screen}`;

const SCREENS: readonly Screen[] = [
  { name: 'the device of a wall', login: null, path: () => '/open-wall', ready: 'main' },
  { name: 'supplies', login: 'adair', path: ofWard('/supplies'), ready: 'tbody tr' },
  { name: 'dropping a product', login: 'adair', path: ofWard('/supplies'), ready: 'tbody tr', open: press(/^Drop/) },
  { name: 'the person', login: 'adair', path: ofWard(''), ready: '[data-bed]', open: press(/^Adair/) },
  { name: 'inside', login: 'adair', path: ofPatient('inside'), ready: 'main' },
  { name: 'the work-up', login: 'adair', path: ofPatient('work-up'), ready: 'main' },
  {
    name: 'a new revision',
    login: 'solberg',
    path: ofPatient('prescription'),
    ready: 'main',
    open: async () => {
      await page.getByRole('button', { name: 'New revision' }).click();
      await page.getByRole('heading', { name: /^Review/ }).waitFor();
    },
  },
  { name: 'an order', login: 'solberg', path: ofPatient('prescription'), ready: 'main', open: press('New order') },
  {
    name: 'a hold',
    login: 'solberg',
    path: ofPatient('prescription'),
    ready: 'main',
    open: press('Hold further fills'),
  },
  {
    name: 'wards, accounts and pagers',
    login: 'whitlock',
    path: () => '/hospital',
    ready: 'section[aria-label="Paging"] tbody tr',
  },
  { name: 'an account', login: 'whitlock', path: () => '/hospital', ready: 'tbody tr', open: press(/^Change/) },
  { name: 'the audit', login: 'whitlock', path: () => '/hospital/audit', ready: 'tbody tr' },
  {
    name: 'wall displays',
    login: 'whitlock',
    path: ofWard('/setup'),
    ready: 'main',
    open: async () => {
      await page.getByLabel('Where it hangs').fill('Day room');
      await page.getByRole('button', { name: 'Make a display' }).click();
      await page.getByText('It is shown this once').waitFor();
    },
  },
];

let signedIn: string | null = null;
const show = async ({ login, path, ready, open }: Screen) => {
  if (login !== signedIn) await ward.context.clearCookies();
  if (login !== signedIn && login !== null)
    await signInAs(page, ward.origin, login, login === 'whitlock' ? '/hospital' : `/ward/${WARD}`);
  signedIn = login;
  await page.goto('about:blank');
  await page.goto(ward.origin + path());
  await page.locator(ready).first().waitFor();
  await open?.();
};

it.each(SCREENS)(
  '$name meets WCAG 2.2 A and AA in every theme, and is never wider than its screen',
  { timeout: 120_000 },
  async (screen) => {
    await page.setViewportSize({ width: 1024, height: 768 });
    await useTheme(page, 'light');
    await show(screen);
    await expectAccessibleIn(themesByTurns(), page);
    for (const { width, height } of SIZES) {
      await page.setViewportSize({ width, height });
      expect({ width, wider: await widerThanPage(page) }).toEqual({ width, wider: 0 });
    }
    expect(await accessFaults(page)).toEqual([]);
    expect(trouble).toEqual([]);
  },
);

/** How many colours a strip through the middle of the first line of words has: one, and nothing can be read. */
const coloursOf = async (words: Locator): Promise<number> => {
  const line = await words.evaluate((node) => {
    const range = node.ownerDocument.createRange();
    range.selectNodeContents(node.querySelector('span') ?? node);
    const { x, y, width, height } = range.getClientRects()[0] ?? new DOMRect();
    return { x: x + 2, y: y + height * 0.35, width: width - 4, height: height * 0.4 };
  });
  const picture = await page.screenshot({ clip: line });
  return page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
    canvas?.drawImage(bitmap, 0, 0);
    const { data } = canvas?.getImageData(0, 0, bitmap.width, bitmap.height) ?? { data: new Uint8ClampedArray() };
    return new Set(new Uint32Array(data.buffer)).size;
  }, picture.toString('base64'));
};

// The browser lays a plate of the ground's colour behind words in forced colours (CSS Color Adjustment 1, section 3);
// what is written in that colour on a filled ground vanishes, and axe, which reads computed colours, does not see it.
it('what is written on a filled ground can be read in every theme: the one action, a choice, an error', async () => {
  await ward.context.clearCookies();
  signedIn = null;
  await page.setViewportSize({ width: 1024, height: 768 });
  await page.goto(`${ward.origin}/sign-in`);
  await page.getByLabel('Name on your badge').fill('nobody');
  await page.getByLabel('Password').fill('not the password');
  await page.getByRole('button', { name: 'Sign in' }).click();
  const error = page.getByRole('alert').first();
  await error.waitFor();
  trouble.length = 0; // the refusal itself, as the browser notes it
  const action = page.getByRole('button', { name: 'Sign in' });
  for (const theme of THEMES) {
    await useTheme(page, theme);
    expect(await coloursOf(action), `the action in ${theme}`).toBeGreaterThan(1);
    expect(await coloursOf(error), `the error in ${theme}`).toBeGreaterThan(1);
  }
  await show({ name: 'choice', login: 'adair', path: ofPatient('observations'), ready: 'main' });
  const chosen = page.locator('label:has(input:checked)').first();
  for (const theme of THEMES) {
    await useTheme(page, theme);
    expect(await coloursOf(chosen), `the choice in ${theme}`).toBeGreaterThan(1);
  }
});
