import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { draft, filledHoursAgo } from './bedside-ward.ts';
import { accessFaults, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let numbers: string[];

beforeAll(async () => {
  ward = await openBoardWard();
  const ids = [
    await ward.admit({ family: 'HALLAM', given: 'Edith', bed: '1', inside: filledHoursAgo(2) }),
    await ward.admit({ family: 'OYELARAN', given: 'Tunde', bed: '2', inside: filledHoursAgo(3) }),
  ];
  numbers = ids.map((id) => `AP ${id.slice(0, 6)}`);
  const lindahl = await ward.as('lindahl');
  for (const id of ids) await lindahl.get(`/api/patients/${id}/bedside`);
  const charge = await ward.as('adair');
  const override = { reason: 'port was checked by two', physician: null };
  const drainOnly = { purpose: 'drainOnly', bag: null, revisionId: null, itemId: null, orderId: null } as const;
  await charge.record(
    draft(
      'prepare',
      { ...drainOnly, identifiers: ['name', 'dateOfBirth'], bagChecks: null, override },
      { patientId: ids[0]!, visitId: randomUUID() },
    ),
  );
  page = await ward.context.newPage();
});
afterAll(() => ward.close());

it('is found from the hospital’s page, and searched by patient, person, kind and day', async () => {
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'whitlock', '/hospital');
  await page.getByRole('link', { name: 'Search the audit' }).click();
  await page.getByRole('heading', { name: 'Audit' }).waitFor();
  const rows = page.locator('tbody tr');
  await rows.filter({ hasText: 'signed in' }).first().waitFor();

  await page.getByLabel('What').selectOption('went on against a stop');
  await page.getByRole('button', { name: 'Search' }).click();
  await rows.filter({ hasText: 'signed in' }).waitFor({ state: 'detached' });
  await expect.poll(() => rows.count()).toBe(1);
  expect(await rows.innerText()).toContain('Rowan Adair');
  expect(await rows.getByRole('link').innerText()).toBe(numbers[0]);

  await page.getByLabel('What').selectOption('opened a patient');
  await page.getByLabel('Person').selectOption('Signe Lindahl, lindahl');
  await page.getByLabel('Patient’s hospital number').fill(numbers[1]!);
  await page.getByRole('button', { name: 'Search' }).click();
  await rows.filter({ hasText: numbers[1]! }).waitFor();
  expect(await rows.count()).toBe(1);

  await page.getByLabel('To, that day included').fill('2020-01-01');
  await page.getByRole('button', { name: 'Search' }).click();
  await page.getByText('Nothing is noted that fits.').waitFor();
  await page.getByLabel('From', { exact: true }).fill('2020-01-02');
  expect(await page.getByRole('button', { name: 'Search' }).innerText()).toContain(
    'The last day lies before the first',
  );
  expect(await accessFaults(page)).toEqual([]);
  expect(trouble).toEqual([]);
});

it('says that nobody has a hospital number, instead of an empty list', async () => {
  await page.goto(`${ward.origin}/hospital/audit`);
  await page.getByLabel('Patient’s hospital number').fill('nobody');
  await page.getByRole('button', { name: 'Search' }).click();
  await page.getByRole('alert').filter({ hasText: 'the number of a patient whom the hospital knows' }).waitFor();
  expect(await page.locator('tbody tr').count()).toBe(0);
});

it('is closed to everybody but managers', async () => {
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, 'adair', '/hospital/audit');
  await page.getByText('This page is for managers of the hospital').waitFor();
});
