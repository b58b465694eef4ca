import { SETTINGS } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { WARD } from './bedside-ward.ts';
import { accessFaults, expectAccessible, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;

beforeAll(async () => {
  ward = await openBoardWard();
});
afterAll(() => ward.close());
beforeEach(async () => {
  await ward.context.clearCookies();
  page = await ward.context.newPage();
  return () => page.close();
});

const setup = `/ward/${WARD}/setup`;

it('shows every setting with its range, default and source, and keeps a change', async () => {
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'whitlock', setup);
  const residual = page.getByLabel('What an ordinary complete drain leaves behind');
  expect(await residual.inputValue()).toBe('200');
  await page.getByText('In force: version 1.').waitFor();
  await residual.fill('20000');
  await page.getByText(/“What an ordinary complete drain leaves behind” is 20000; allowed is 0 to 1000 mL/).waitFor();
  expect(await page.getByRole('button', { name: /Keep/ }).innerText()).toContain('Put right what is marked first');
  await residual.fill('250');
  await page.getByRole('button', { name: 'Keep 1 change' }).click();
  await page.getByText('In force: version 2.').waitFor();
  await page.reload();
  expect(await residual.inputValue()).toBe('250');
  const version = page.getByRole('article', { name: 'Version 2' });
  await version.getByText(/Name of whitlock/).waitFor();
  expect(await version.innerText()).toContain('What an ordinary complete drain leaves behind: from 200 to 250 mL');
  for (const { meaning } of Object.values(SETTINGS)) {
    expect(await page.getByLabel(meaning, { exact: true }).count(), meaning).toBe(1);
  }
  expect(trouble).toEqual([]);
});

it('may be read, not changed, by a nurse', async () => {
  await signInAs(page, ward.origin, 'lindahl', setup);
  expect(await page.getByRole('button', { name: /Keep/ }).innerText()).toContain('Only a manager changes the settings');
  await page.goto(`${ward.origin}/hospital`);
  await page.getByText('This page is for managers of the hospital').waitFor();
});

it('makes an account that can sign in, and disables it so that it cannot', async () => {
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'whitlock', '/hospital');
  await page.getByRole('button', { name: 'New account' }).click();
  const dialog = page.getByRole('dialog', { name: 'New account' });
  await dialog.getByLabel('Name').fill('Tobias Quill');
  await dialog.getByLabel('Signs in as').fill('quill');
  await dialog.getByLabel('First password').fill('a password for tests');
  await dialog.getByRole('group', { name: 'On Kestrel Ward' }).getByText('nurse', { exact: true }).click();
  expect(await accessFaults(page)).toEqual([]);
  await dialog.getByRole('button', { name: 'Make the account' }).click();
  await page.getByRole('row', { name: /Tobias Quill quill nurse, Kestrel Ward may sign in/ }).waitFor();
  expect(trouble).toEqual([]);

  await ward.context.clearCookies();
  await signInAs(page, ward.origin, 'quill');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, 'whitlock', '/hospital');
  await page.getByRole('button', { name: 'Change Tobias Quill' }).click();
  await page.getByRole('button', { name: 'Disable', exact: true }).click();
  const asked = page.getByRole('group', { name: 'Disable Tobias Quill' });
  expect(await asked.innerText()).toContain('signed out everywhere at once');
  await asked.getByRole('button', { name: 'Disable now' }).click();
  await page.getByRole('row', { name: /Tobias Quill quill nurse, Kestrel Ward disabled/ }).waitFor();

  await ward.context.clearCookies();
  await page.goto(`${ward.origin}/sign-in`);
  await page.getByLabel('Name on your badge').fill('quill');
  await page.getByLabel('Password').fill('a password for tests');
  await page.getByRole('button', { name: 'Sign in' }).click();
  expect(await page.getByRole('alert').innerText()).toContain('no account with this name and password');
});

it('opens a ward with its beds, whose board then stands empty', async () => {
  await signInAs(page, ward.origin, 'whitlock', '/hospital');
  await page.getByRole('button', { name: 'Open a ward' }).click();
  const dialog = page.getByRole('dialog', { name: 'Open a ward' });
  await dialog.getByLabel('Name').fill('Sandpiper Ward');
  await dialog.getByLabel('Beds, numbered from 1').fill('12');
  await dialog.getByLabel('Time zone').fill('Europe/London');
  expect(await accessFaults(page)).toEqual([]);
  await dialog.getByRole('button', { name: 'Open the ward' }).click();
  await page.getByRole('listitem').filter({ hasText: 'Sandpiper Ward' }).getByRole('link', { name: 'Board' }).click();
  await page.waitForURL(`${ward.origin}/ward/sandpiper-ward`);
  await page.getByRole('heading', { name: 'No patient is on this board yet' }).waitFor();
});

it('makes the first manager behind the link of the console, once', async () => {
  await ward.app.pool.query('UPDATE account SET manager = false');
  const token = await ward.app.access.firstAdministrator.issueToken();
  await page.goto(`${ward.origin}/first-administrator#${token}`);
  await page.getByLabel('Your name').fill('Maren Whitlock');
  await page.getByLabel('You sign in as').fill('first');
  await page.getByLabel('Password').fill('a password for tests');
  expect(await accessFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Make the account' }).click();
  await page.waitForURL(/\/ward\//);
  await ward.context.clearCookies();
  await page.goto(`${ward.origin}/first-administrator#${token}`);
  await page.reload();
  await page.getByLabel('Your name').fill('Somebody Else');
  await page.getByLabel('You sign in as').fill('second');
  await page.getByLabel('Password').fill('a password for tests');
  await page.getByRole('button', { name: 'Make the account' }).click();
  await page.getByRole('alert').waitFor();
  await ward.app.pool.query("UPDATE account SET manager = true WHERE login = 'whitlock'");
});

it('meets WCAG 2.2 AA in every theme and at every size', async () => {
  await signInAs(page, ward.origin, 'whitlock', setup);
  await page.getByLabel('What an ordinary complete drain leaves behind').waitFor();
  await expectAccessible(page);
});
