import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { byLength, filledHoursAgo, PASSWORD, WARD } from './bedside-ward.ts';
import { eventually, expectAccessible, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-1.36', 2000, 240)];
  await ward.admit({ family: 'TREVANION', given: 'Mavis', bed: '17', inside: filledHoursAgo(9), items });
});
afterAll(() => ward.close());
beforeEach(async () => {
  await ward.context.clearCookies();
  page = await ward.context.newPage();
  return () => page.close();
});

describe('signing in', () => {
  it('works by keyboard alone and leads to the person’s board', async () => {
    const trouble = troubleOf(page);
    await page.goto(`${ward.origin}/sign-in`);
    await page.getByLabel('Name on your badge').waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.type('lindahl');
    await page.keyboard.press('Tab');
    await page.keyboard.type(PASSWORD);
    await page.keyboard.press('Enter');
    await page.waitForURL(`${ward.origin}/ward/${WARD}`);
    expect(trouble).toEqual([]);
  });

  it('says in words that name or password is wrong, keeps the name and forgets the password', async () => {
    await page.goto(`${ward.origin}/sign-in`);
    await page.getByLabel('Name on your badge').fill('lindahl');
    await page.getByLabel('Password').fill('not her password');
    await page.getByRole('button', { name: 'Sign in' }).click();
    expect(await page.getByRole('alert').innerText()).toContain('no account with this name and password');
    expect(await page.getByLabel('Name on your badge').inputValue()).toBe('lindahl');
    expect(await page.getByLabel('Password').inputValue()).toBe('');
  });

  it('says why it may not be pressed yet', async () => {
    await page.goto(`${ward.origin}/sign-in`);
    const button = page.getByRole('button', { name: 'Sign in' });
    expect(await button.getAttribute('aria-disabled')).toBe('true');
    expect(await button.innerText()).toContain('Type your name first');
  });

  it('says that the tool replaces nobody and is no medical device', async () => {
    await page.goto(`${ward.origin}/sign-in`);
    const caution = await page.getByRole('region', { name: 'Caution' }).innerText();
    expect(caution).toContain('not a medical device');
    expect(caution).toContain('local policy');
  });

  it('leads back to where one wanted to go, but never to another server', async () => {
    await page.goto(`${ward.origin}/ward/${WARD}/alerts`);
    await page.waitForURL(/\/sign-in\?back=/);
    await page.getByLabel('Name on your badge').fill('lindahl');
    await page.getByLabel('Password').fill(PASSWORD);
    await page.keyboard.press('Enter');
    await page.waitForURL(`${ward.origin}/ward/${WARD}/alerts`);

    await ward.context.clearCookies();
    for (const foreign of ['//other.invalid/x', 'https://other.invalid', '/\\other.invalid', 'javascript:alert(1)']) {
      await page.goto(`${ward.origin}/sign-in?back=${encodeURIComponent(foreign)}`);
      await page.getByLabel('Name on your badge').fill('lindahl');
      await page.getByLabel('Password').fill(PASSWORD);
      await page.keyboard.press('Enter');
      await page.waitForURL(`${ward.origin}/ward/${WARD}`);
      await ward.context.clearCookies();
    }
  });

  it('meets WCAG 2.2 AA in every theme and at every size', async () => {
    await page.goto(`${ward.origin}/sign-in`);
    await page.getByLabel('Password').waitFor();
    await expectAccessible(page);
  });
});

describe('once signed in', () => {
  it('ends here, and everything asks for a sign-in again', async () => {
    await signInAs(page, ward.origin, 'lindahl');
    await page.getByRole('button', { name: 'Lindahl, nurse' }).click();
    await page.getByRole('button', { name: 'Sign out', exact: true }).click();
    await page.waitForURL(/\/sign-in$/);
    await page.goto(`${ward.origin}/ward/${WARD}`);
    await page.waitForURL(/\/sign-in\?back=/);
  });

  it('locks writing when idle, asks over the screen for the password, and then sends what was pressed', async () => {
    await signInAs(page, ward.origin, 'adair');
    await page.getByRole('button', { name: 'Take it' }).waitFor();
    await ward.app.pool.query("UPDATE session SET last_seen_at = now() - interval '31 minutes'");
    // the server remembers a session for a few seconds
    await eventually(async () => (await page.request.get(`${ward.origin}/api/session`)).json()).toMatchObject({
      lockedAt: expect.any(Number),
    });
    await page.getByRole('button', { name: 'Take it' }).click();
    const question = page.getByRole('dialog', { name: 'Still you?' });
    await question.getByLabel('Password').fill('somebody else’s');
    await page.keyboard.press('Enter');
    expect(await question.getByRole('alert').innerText()).toContain('not the password');
    await question.getByLabel('Password').fill(PASSWORD);
    await page.keyboard.press('Enter');
    await eventually(() => page.locator('li[data-bed="17"]').innerText()).toMatch(/Adair has it to \d\d:\d\d/);
  });
});
