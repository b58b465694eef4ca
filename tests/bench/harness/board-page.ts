import type { Page } from 'playwright-core';
import { openBrowser } from '../../support/browser.ts';
import { ALL_CORES, GENERATOR_CORE, pin } from './cores.ts';
import { type Served, signIn } from './servers.ts';
import { NURSE, WARD } from './ward.ts';

export type BoardPage = { page: Page; open(): Promise<void>; close(): Promise<void> };

/**
 * A browser of its own in which a nurse has signed in, on all cores: it is many processes, and what it shows is what is
 * measured. `open` goes to the unit board and waits for its first row.
 */
export async function openBoardPage(app: Served, options: Parameters<typeof openBrowser>[0] = {}): Promise<BoardPage> {
  const cookie = await signIn(app.url, NURSE);
  // what is started from here inherits the cores that this process may use
  pin(process.pid, ALL_CORES);
  const browser = await openBrowser({ viewport: { width: 1440, height: 900 }, ...options });
  pin(process.pid, GENERATOR_CORE);
  const cookies = cookie.split('; ').map((pair) => {
    const at = pair.indexOf('=');
    return { name: pair.slice(0, at), value: pair.slice(at + 1), url: app.url.origin };
  });
  await browser.context.addCookies(cookies);
  const page = await browser.context.newPage();
  return {
    page,
    async open() {
      await page.goto(new URL(`/ward/${WARD}`, app.url).href);
      await page.locator('li[data-bed]').first().waitFor();
    },
    close: browser.close,
  };
}
