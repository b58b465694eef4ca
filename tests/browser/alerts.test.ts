import type { BoardSnapshot } from '@slackwater/contract';
import { MINUTE_MS } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { byLength, filledHoursAgo, WARD } from './bedside-ward.ts';
import { accessFaults, eventually, expectAccessible, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-1.36', 2000, 240)];
  // Filled nine hours ago for four: the server raises the alert by itself.
  await ward.admit({ family: 'TREVANION', given: 'Mavis', bed: '17', inside: filledHoursAgo(9), items });
  await ward.admit({ family: 'NAKASHIMA', given: 'Ren', bed: '22', inside: filledHoursAgo(9.2), items });
});
afterAll(() => ward.close());
beforeEach(async () => {
  await ward.context.clearCookies();
  page = await ward.context.newPage();
  return () => page.close();
});

const alerts = `/ward/${WARD}/alerts`;
const alertOf = (name: string) => page.getByRole('listitem').filter({ hasText: name });

it('says of each alert what, since when, why by which rule, what next, and who has it', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  await eventually(() => page.getByRole('heading', { level: 1 }).innerText()).toMatch(
    /2 alerts are open, 2 High have nobody/,
  );
  const words = (await alertOf('TREVANION').innerText()).replace(/\s+/g, ' ');
  expect(words).toMatch(/High Drain overdue/);
  expect(words).toMatch(/was due at \d\d:\d\d/);
  expect(words).toMatch(/Common practice/);
  expect(words).toMatch(/Nobody has it/);
  expect(words).toMatch(/(Goes to the charge nurse|With)/);
});

it('meets WCAG 2.2 AA in every theme and at every size', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  await alertOf('TREVANION').waitFor();
  await expectAccessible(page);
});

it('asks for a person and a time before it is handed on; the other person sees it as hers', async () => {
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'adair', alerts);
  await alertOf('NAKASHIMA').getByRole('button', { name: 'Hand on' }).click();
  const dialog = page.getByRole('dialog', { name: 'Hand this alert on' });
  expect(await dialog.getByRole('button', { name: 'Hand on' }).innerText()).toContain('Choose to whom');
  expect(await accessFaults(page)).toEqual([]);
  await dialog.getByText('Adaeze Okoro').click();
  await dialog.getByText('10 min').click();
  await dialog.getByRole('button', { name: 'Hand on' }).click();
  await eventually(() => alertOf('NAKASHIMA').innerText()).toMatch(/Okoro has it\s+to \d\d:\d\d/);
  expect(trouble).toEqual([]);
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, 'okoro', alerts);
  await page.getByText(/^Mine 1$/).click();
  await alertOf('NAKASHIMA').waitFor();
  expect(await alertOf('TREVANION').count()).toBe(0);
});

it('is taken on the board with one press, at most for the ward’s time', async () => {
  await signInAs(page, ward.origin, 'lindahl');
  const row = page.locator('li[data-bed="17"]');
  await row.getByRole('button', { name: 'Take it' }).click();
  await eventually(() => row.innerText()).toMatch(/Lindahl has it to \d\d:\d\d/);
  const { rows } = await (await ward.as('okoro')).get<BoardSnapshot>(`/api/wards/${WARD}/board`);
  const [alert] = rows.find(({ bed }) => bed === '17')?.alerts ?? [];
  // 30 min at most: the ward's default; a browser's idea of the ward's clock may lie up to 2 min ahead, as the ward allows
  expect(alert?.owner?.until).toBeGreaterThan(Date.now() + 25 * MINUTE_MS);
  expect(alert?.owner?.until).toBeLessThanOrEqual(Date.now() + 32 * MINUTE_MS);
});

it('is snoozed with an end, and stays in sight meanwhile', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  await alertOf('NAKASHIMA').getByRole('button', { name: 'Snooze' }).click();
  const dialog = page.getByRole('dialog', { name: 'Snooze this alert' });
  await dialog.getByText('5 min', { exact: true }).click();
  await dialog.getByRole('button', { name: 'Snooze' }).click();
  await eventually(() => page.getByRole('dialog').count()).toBe(0);
  await alertOf('NAKASHIMA').waitFor();
});

it('is cleared by a person only with a reason', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  await alertOf('NAKASHIMA').getByRole('button', { name: 'Clear' }).click();
  const dialog = page.getByRole('dialog', { name: 'Clear this alert' });
  expect(await dialog.getByRole('button', { name: 'Clear' }).innerText()).toContain('Write the reason first');
  // behind the dialog another alert may have come on top: it says itself which one this is
  await dialog.getByText(/Drain overdue, bed \d+, NAKASHIMA, Ren/).waitFor();
  await dialog.getByLabel('Why is it cleared?').fill('Drained on paper, being entered');
  await dialog.getByRole('button', { name: 'Clear' }).click();
  await eventually(() => alertOf('NAKASHIMA').count()).toBe(0);
});

it('may be read, not owned, by the manager, and says so', async () => {
  await signInAs(page, ward.origin, 'whitlock', alerts);
  expect(await alertOf('TREVANION').innerText()).toContain('Your role does not own alerts');
  expect(await page.getByRole('button', { name: /Acknowledge/ }).count()).toBe(0);
});
