import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo } from './bedside-ward.ts';
import { openBoardWard, signInAs, troubleOf, useTheme } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];
let id: string;

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-2.27', 2000, 270)];
  id = await ward.admit({ family: 'MWANGI', given: 'Josephat', bed: '7', inside: filledHoursAgo(4.5), items });
  await carryTo(ward, id, 'closed', { readingMl: 1850 });
  await (await ward.as('lindahl')).record(draft('weight', { weightKg: 71.4, cavity: 'full' }, { patientId: id }));
});
afterAll(() => ward.close());
beforeEach(async () => {
  page = await ward.context.newPage();
  await page.setViewportSize({ width: 1440, height: 900 });
  trouble = troubleOf(page);
  await useTheme(page, 'light');
  return async () => {
    await page.close();
    expect(trouble).toEqual([]);
  };
});

describe('rounds', () => {
  it('each chart has a sentence and a table with the same numbers, and is drawn', async () => {
    await signInAs(page, ward.origin, 'solberg', `/patients/${id}/rounds`);
    // By hand: 1,850 − 2,000 = −150.
    // Drained just now, it is of the day under way; in the first minutes of a ward day it was of the one before.
    await page
      .getByText(/Retained 150 mL (so far in the day under way|a day over the last complete ward day)/)
      .waitFor();
    await page.getByText('1 of the last 1 dwells retained fluid').waitFor();
    await page.getByText(/71.4 kg, full/).waitFor();
    await expect.poll(() => page.locator('figure svg').count()).toBe(4);
    await page.getByText('Net ultrafiltration per ward day: the numbers').click();
    await page.getByRole('cell', { name: 'Retained 150 mL' }).first().waitFor();
  });

  it('a day without a weight is said and not drawn; the line joins nothing over it', async () => {
    await signInAs(page, ward.origin, 'solberg', `/patients/${id}/rounds`);
    const sentence = await page.getByText(/Not weighed on \d+ of \d+ days/).innerText();
    const [, missing, all] = /Not weighed on (\d+) of (\d+) days/.exec(sentence) ?? [];
    expect(Number(all) - Number(missing)).toBe(1);
    await expect.poll(() => page.locator('figure').last().locator('.recharts-line-dot').count()).toBe(1);
  });

  it('says that nothing was measured where nothing was', async () => {
    const other = await ward.admit({ family: 'DEMBELE', given: 'Oumar', bed: '11', inside: { cavity: 'notKnown' } });
    await signInAs(page, ward.origin, 'solberg', `/patients/${other}/rounds`);
    await page.getByText('No complete ward day yet.').waitFor();
    await page.getByText('Nobody was weighed: nothing is drawn.').waitFor();
    expect(await page.locator('figure svg').count()).toBe(0);
  });
});
