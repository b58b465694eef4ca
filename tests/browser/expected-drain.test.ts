import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, filledHoursAgo } from './bedside-ward.ts';
import { openBoardWard, signInAs, troubleOf, useTheme } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];

beforeAll(async () => {
  ward = await openBoardWard();
});
afterAll(() => ward.close());
beforeEach(async () => {
  page = await ward.context.newPage();
  await page.setViewportSize({ width: 1024, height: 768 });
  trouble = troubleOf(page);
  await useTheme(page, 'light');
  return async () => {
    await page.close();
    expect(trouble).toEqual([]);
  };
});

/** 2,000 mL of 2.5 % since six hours. */
const patient = (family: string, bed: string): Promise<string> =>
  ward.admit({
    family,
    given: 'Isolde',
    bed,
    inside: filledHoursAgo(6),
    items: [byLength('glucose-2.27', 2000, 120)],
  });

const open = async (patientId: string) => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, 'lindahl', `/patients/${patientId}/bedside`);
};

const FIRST = { prepare: 200, startDrain: 190, endDrain: 175, startFill: 170, endFill: 160, close: 158 };
const BAND = String.raw`[\d,]+ to [\d,]+`;

describe('what a drain should bring', () => {
  it('is the population’s before any dwell of the patient’s own', async () => {
    const id = await patient('TRELAWN', '1');
    await open(id);
    await page.getByText(new RegExp(`^${BAND}, by the population, no earlier dwell yet$`)).waitFor();
    await page.getByText(/four drains in five/).waitFor();
  });

  it('is learned from the dwells before; the comparison after the reading names the same figure', async () => {
    const id = await patient('TRELAWNEY', '2');
    await carryTo(ward, id, 'closed', { minutesAgo: FIRST, readingMl: 2200 });
    await carryTo(ward, id, 'draining', { minutesAgo: { prepare: 60, startDrain: 30 } });
    await open(id);
    await page.getByText(new RegExp(`^${BAND}, from 1 earlier dwell$`)).waitFor();
    const said = await page.locator('dd', { hasText: 'from 1 earlier dwell' }).innerText();
    const figure = /^about ([\d,]+ mL)/.exec(said)?.[1];

    await page.getByRole('button', { name: /^Stopped: clear/ }).click();
    await page.getByLabel('Full drain bag').fill('2298');
    await page.getByLabel('Empty bag').fill('98');
    // By hand: 2,298 − 98 = 2,200; 2,200 − 2,000 = 200.
    await page.getByText(`the ${figure} expected from 1 earlier dwell.`).waitFor();
    await page.getByText('200 mL more than went in').waitFor();
  });
});
