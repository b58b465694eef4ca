/// <reference lib="dom" />
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { hashPassword } from '@slackwater/api/access/password';
import type { Hooks } from '@slackwater/api/alarms/hooks/hook';
import type { WardView } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain';
import { projectRoot } from '@slackwater/tools/paths';
import axe from 'axe-core';
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { openBrowser } from '../support/browser.ts';
import { freshDatabase } from '../support/database.ts';
import { type BedsideWard, draft, openBedsideWard, PASSWORD, WARD } from './bedside-ward.ts';

export type Theme = 'light' | 'dark' | 'more contrast' | 'dark, more contrast' | 'forced colours';

export const THEMES: readonly Theme[] = ['light', 'dark', 'more contrast', 'dark, more contrast', 'forced colours'];

const OTHERS = THEMES.filter((theme) => theme !== 'light');
let turn = 0;

/**
 * The themes in which a page is asked: light and one other, by turns over a file's pages, so that a run is in each of
 * them; all for each page in `npm run test:looks`.
 */
export function themesByTurns(): readonly Theme[] {
  if (process.env.LOOKS === 'all') return THEMES;
  const other = OTHERS[turn % OTHERS.length]!;
  turn += 1;
  return ['light', other];
}

export const SIZES = [
  { width: 1600, height: 1000 },
  { width: 1440, height: 900 },
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
] as const;

/** The ward with its built board, and one browser. Also a wall display and a manager. */
export async function openBoardWard(hooks?: Hooks) {
  const database = await freshDatabase();
  const ward = await openBedsideWard(database.appUrl, join(projectRoot, 'apps/board/dist'), hooks);
  const hash = await hashPassword(PASSWORD);
  for (const [login, role] of [
    ['kestrel-wall', 'wall'],
    ['whitlock', 'manager'],
  ] as const) {
    const id = randomUUID();
    await ward.app.pool.query(
      `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, manager, created_at)
       VALUES ('alder-point', $1, $2, $3, $4, now(), $5, now())`,
      [id, login, `Name of ${login}`, hash, role === 'manager'],
    );
    // a manager is of the hospital, not of a ward
    if (role === 'manager') continue;
    await ward.app.pool.query(`INSERT INTO account_role VALUES ('alder-point', $1, $2, $3)`, [id, WARD, role]);
  }
  const browser = await openBrowser({ viewport: { width: 1440, height: 900 } });
  return {
    ...ward,
    database,
    context: browser.context,
    async close() {
      await browser.close();
      await ward.close();
      await database.drop();
    },
  };
}

/** Comes true in a while; how long is a bench's business. */
export const eventually: typeof expect.poll = (read, options) => expect.poll(read, { timeout: 20_000, ...options });

/** What a reader sees in a row, in one line: none before it is drawn, since rows out of sight are not. */
export async function wordsIn(drawn: Locator): Promise<string> {
  await drawn.scrollIntoViewIfNeeded();
  await eventually(() => drawn.innerText()).not.toBe('');
  return (await drawn.innerText()).replace(/\s+/g, ' ');
}

/** Everything that the page wrote as an error, or threw. A test ends by finding it empty. */
export function troubleOf(page: Page): string[] {
  const trouble: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') trouble.push(message.text());
  });
  page.on('pageerror', (error) => trouble.push(String(error)));
  return trouble;
}

export async function signInAs(page: Page, origin: string, login: string, back = `/ward/${WARD}`): Promise<void> {
  await page.goto(`${origin}/sign-in?back=${encodeURIComponent(back)}`);
  await page.getByLabel('Name on your badge').fill(login);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL(origin + back);
}

/** The charge nurse gives a patient to a nurse for the next hours. */
export async function assign(ward: BedsideWard, patientId: string, familyName: string): Promise<void> {
  const charge = await ward.as('adair');
  const { staff } = await charge.get<WardView>(`/api/wards/${WARD}`);
  const nurse = staff.find(({ name }) => name.endsWith(familyName));
  if (!nurse) throw new Error(`Nobody on the ward is called ${familyName}.`);
  const from = Date.now();
  const payload = { accountId: nurse.accountId, name: nurse.name, from, to: from + 8 * HOUR_MS };
  await charge.record(draft('assigned', payload, { patientId, happenedAt: from }));
}

/** Theme as the device asks for it; nothing moves. */
export async function useTheme(page: Page, theme: Theme): Promise<void> {
  await page.emulateMedia({
    colorScheme: theme.includes('dark') ? 'dark' : 'light',
    contrast: theme.includes('more contrast') ? 'more' : 'no-preference',
    forcedColors: theme === 'forced colours' ? 'active' : 'none',
    reducedMotion: 'reduce',
  });
}

/** By how many px the page is wider than its window: 0 where nothing scrolls sideways. */
export const widerThanPage = (page: Page): Promise<number> =>
  page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe-core finds against WCAG 2.2 A and AA, as one line a fault. */
export async function accessFaults(page: Page): Promise<readonly string[]> {
  // evaluated through the debugger, so the content security policy stays as it is served
  if (!(await page.evaluate('"axe" in window'))) await page.evaluate(`${axe.source}; undefined`);
  return page.evaluate(async (tags) => {
    // biome-ignore lint/suspicious/noExplicitAny: axe lives in the page
    const found = await (window as any).axe.run(document, { runOnly: { type: 'tag', values: tags } });
    return found.violations.flatMap((violation: { id: string; nodes: { html: string; failureSummary: string }[] }) =>
      violation.nodes.map((node) => `${violation.id}: ${node.html.slice(0, 200)} ${node.failureSummary.slice(0, 300)}`),
    );
  }, TAGS);
}

/** axe finds nothing in each of the themes. The page is left in the light one. */
export async function expectAccessibleIn(themes: readonly Theme[], page: Page): Promise<void> {
  for (const theme of themes) {
    await useTheme(page, theme);
    expect(await accessFaults(page), `${page.url()}, ${theme}`).toEqual([]);
  }
  await useTheme(page, 'light');
}

/** axe finds nothing: in every theme, and, since a theme lays nothing out anew, at every size in the light one. */
export async function expectAccessible(page: Page): Promise<void> {
  await expectAccessibleIn(THEMES, page);
  for (const { width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    expect(await accessFaults(page), `at ${width}`).toEqual([]);
  }
}
