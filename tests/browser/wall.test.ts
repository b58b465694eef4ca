/// <reference lib="dom" />
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import { accessFaults, eventually, openBoardWard, signInAs, THEMES, troubleOf, useTheme } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let mavis: string;

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-1.36', 2000, 240)];
  mavis = await ward.admit({ family: 'TREVANION', given: 'Mavis', bed: '17', inside: filledHoursAgo(9), items });
  await ward.admit({ family: 'OYELARAN', given: 'Tunde', bed: '14', inside: filledHoursAgo(3.5), items });
  await ward.admit({ family: 'HARGROVE', given: 'Della', bed: '4', inside: filledHoursAgo(1), items });
  await ward.admit({ family: 'THISTLEWOOD', given: 'Joan', bed: '8', inside: { cavity: 'empty' } });
});
afterAll(() => ward.close());
beforeEach(async () => {
  await ward.context.clearCookies();
  page = await ward.context.newPage();
  await page.setViewportSize({ width: 1920, height: 1080 });
  return () => page.close();
});

const wall = `/ward/${WARD}/wall`;

it('shows bed, initials and countdown, and no name or number of a patient comes over the line at all', async () => {
  const trouble = troubleOf(page);
  const answers: Promise<string>[] = [];
  page.on('response', (response) => {
    const { pathname } = new URL(response.url());
    if (pathname.startsWith('/api/') && !pathname.endsWith('/stream')) answers.push(response.text());
  });
  await signInAs(page, ward.origin, 'kestrel-wall', wall);
  await page.locator('[data-stream="live"]').waitFor();
  const words = await page.locator('body').innerText();
  expect(words).toContain('T. M.');
  expect(words).toMatch(/5\s*h\s*0\d\s*min/);
  const received = (await Promise.all(answers)).join('\n') + words;
  for (const name of [
    'TREVANION',
    'Mavis',
    'OYELARAN',
    'HARGROVE',
    'THISTLEWOOD',
    '1953-05-17',
    '17-May-1953',
    'chlorhexidine',
  ])
    expect(received).not.toContain(name);
  expect(trouble).toEqual([]);
});

it('has nothing to press, and is legible at three metres', async () => {
  await signInAs(page, ward.origin, 'kestrel-wall', wall);
  await page.locator('li[data-bed="17"]').waitFor();
  expect(await page.locator('a, button, input, [tabindex]').count()).toBe(0);
  // 20 arc minutes at 3 m on a 43-inch screen of 1,920 pixels are 50 px, 16 are 40 px (ISO 9241-303 asks for 16 to 22).
  const small = await page.locator('li[data-bed] *').evaluateAll((elements) =>
    elements
      .filter((element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()))
      .filter((element) => !element.closest('.sr'))
      .map((element) => [element.textContent, Number.parseFloat(getComputedStyle(element).fontSize)] as const)
      .filter(([, size]) => size < 40),
  );
  expect(small).toEqual([]);
  const numerals = await page
    .locator('li[data-bed="14"] [role="timer"] b')
    .evaluateAll((elements) => elements.map((element) => Number.parseFloat(getComputedStyle(element).fontSize)));
  expect(Math.min(...numerals)).toBeGreaterThanOrEqual(50);
});

it('follows the ward by itself', async () => {
  await signInAs(page, ward.origin, 'kestrel-wall', wall);
  await page.locator('[data-stream="live"]').waitFor();
  await (await ward.as('okoro')).record(draft('movedBed', { bed: '3' }, { patientId: mavis })).catch(() => {});
  await (await ward.as('adair')).record(draft('movedBed', { bed: '5' }, { patientId: mavis }));
  await page.locator('li[data-bed="5"]').waitFor();
  expect(await page.locator('li[data-bed="17"]').count()).toBe(0);
});

it('may not be left for a board with names', async () => {
  await signInAs(page, ward.origin, 'kestrel-wall', wall);
  await page.goto(`${ward.origin}/ward/${WARD}`);
  await page.getByRole('heading', { name: 'This screen could not be shown' }).waitFor();
  expect(await page.locator('body').innerText()).toContain('does not allow this');
});

it.each(THEMES)('meets WCAG 2.2 AA in %s', async (theme) => {
  await useTheme(page, theme);
  await signInAs(page, ward.origin, 'kestrel-wall', wall);
  await page.locator('li[data-bed="17"], li[data-bed="5"]').first().waitFor();
  expect(await accessFaults(page)).toEqual([]);
});

it.each([
  ['ten minutes fast', 600_000],
  ['ten minutes slow', -600_000],
  ['a day fast', 86_400_000],
  ['a day slow', -86_400_000],
])('follows the server on a device whose clock is %s', async (_wrong, byMs) => {
  await page.addInitScript(`{
    const Real = Date;
    globalThis.Date = class extends Real {
      constructor(...given) { given.length === 0 ? super(Real.now() + ${byMs}) : super(...given); }
      static now() { return Real.now() + ${byMs}; }
    };
  }`);
  await signInAs(page, ward.origin, 'kestrel-wall', wall);
  await page.locator('[data-stream="live"]').waitFor();
  const off = Number(await page.evaluate('Date.now()')) - Date.now();
  expect(Math.abs(off - byMs)).toBeLessThan(60_000);
  expect(await page.locator('body').innerText()).toMatch(/5\s*h\s*0\d\s*min/);
});

it('is made in the ward’s settings, opened by its code, says when it ends, is renewed, and goes dark when it is ended', async () => {
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'adair', `/ward/${WARD}/setup`);
  const section = page.getByRole('region', { name: 'Wall displays' });
  await section.getByLabel('Where it hangs').fill('Corridor by the store');
  await section.getByRole('button', { name: 'Make a display' }).click();
  const code = await section.locator('output').innerText();
  await section.getByText('code not used yet').waitFor();

  const device = await ward.context.browser()!.newContext({ viewport: { width: 1920, height: 1080 } });
  const screen = await device.newPage();
  await screen.goto(`${ward.origin}/open-wall`);
  await screen.getByLabel('Code').fill('wrong');
  await screen.getByRole('button', { name: 'Open the display' }).click();
  await screen.getByText('Renew the display in the ward’s setup').waitFor();
  await screen.getByLabel('Code').fill(code.toLowerCase());
  await screen.getByRole('button', { name: 'Open the display' }).click();
  await screen.locator('[data-stream="live"] li[data-bed="14"]').waitFor();
  expect(new URL(screen.url()).pathname).toBe(wall);
  expect(await screen.locator('header').innerText()).not.toContain('Display ends');

  const ending = `UPDATE session SET ends_at = now() + interval '6 days 12 hours'
    WHERE account_id = (SELECT id FROM account WHERE name = 'Corridor by the store')`;
  await ward.app.pool.query(ending);
  await screen.reload();
  await screen.getByText(/Display ends .+: renew it/).waitFor();

  await page.reload();
  const display = section.getByRole('listitem').filter({ hasText: 'Corridor' });
  await display.getByText('looks now').waitFor();
  await display.getByText('Ends in 6 days: renew it.').waitFor();
  await section.getByRole('button', { name: 'Renew: Corridor by the store' }).click();
  const renewed = await section.locator('output').innerText();
  await display.getByText('code not used yet').waitFor();
  await screen.goto(`${ward.origin}/open-wall`);
  await screen.getByLabel('Code').fill(renewed);
  await screen.getByRole('button', { name: 'Open the display' }).click();
  await screen.locator('[data-stream="live"] li[data-bed="14"]').waitFor();
  expect(await screen.locator('header').innerText()).not.toContain('Display ends');
  await section.getByRole('button', { name: 'End it now: Corridor by the store' }).click();
  await section.getByText(/ended .+; made by/).waitFor();
  await screen.getByRole('heading', { name: 'Every exchange, on time' }).waitFor();
  expect(await screen.locator('li[data-bed]').count()).toBe(0);
  await device.close();
  expect(trouble).toEqual([]);
});

it('loads itself anew when the server runs another build', async () => {
  // what a service worker passes on would go round the answers made up here
  const device = await ward.context.browser()!.newContext({ serviceWorkers: 'block' });
  const screen = await device.newPage();
  await signInAs(screen, ward.origin, 'kestrel-wall', wall);
  const { epoch, position } = await (await screen.request.get(`${ward.origin}/api/wards/${WARD}/wall`)).json();
  // the page that signed in would hear the first of these
  await screen.goto('about:blank');
  let beats = 0;
  await screen.route('**/stream', async (route) => {
    const build = beats++ === 0 ? 'one' : 'another';
    const told = { epoch, position, serverAt: Date.now(), build, alarmsThrough: null };
    await route.fulfill({ contentType: 'text/event-stream', body: `event: beat\ndata: ${JSON.stringify(told)}\n\n` });
  });
  let loads = 0;
  screen.on('request', (request) => {
    if (request.isNavigationRequest()) loads += 1;
  });
  await screen.goto(ward.origin + wall);
  await eventually(() => loads).toBe(2);
  await screen.locator('li[data-bed="14"]').waitFor();
  await device.close();
});
