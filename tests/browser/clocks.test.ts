/// <reference lib="dom" />
import type { EntryPage } from '@slackwater/contract';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import { eventually, openBoardWard, signInAs, troubleOf } from './board-page.ts';
import { movableClock, setTimeOfDay } from './device-clock.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let mavis: string;

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-1.36', 2000, 240)];
  mavis = await ward.admit({ family: 'TREVANION', given: 'Mavis', bed: '17', inside: filledHoursAgo(1), items });
});
afterAll(() => ward.close());

/** A page of another device, which stands in a zone of its own. */
const openDevice = async (timezoneId?: string) => {
  const device = await ward.context.browser()!.newContext({
    viewport: { width: 1440, height: 900 },
    serviceWorkers: 'block',
    ...(timezoneId === undefined ? {} : { timezoneId }),
  });
  return { device, page: await device.newPage() };
};
const entriesOf = async (patientId: string) =>
  (await (await ward.as('lindahl')).get<EntryPage>(`/api/patients/${patientId}/entries?limit=100`)).entries;
const minuteOf = (at: number) => Math.floor(at / MINUTE_MS);

describe('on a device whose time of day somebody sets by an hour while board and bedside are open', () => {
  it('the countdown, what runs and what is stamped follow the server', async () => {
    // In seven and a half seconds a further minute of the drain is over.
    const minutesAgo = { prepare: 20, startDrain: 2.875 };
    const items = [byLength('glucose-1.36', 2000, 270)];
    const inside = filledHoursAgo(4.5);
    const draining = await ward.admit({ family: 'OYELARAN', given: 'Tunde', bed: '14', inside, items });
    await carryTo(ward, draining, 'draining', { minutesAgo });
    const drain = (await entriesOf(draining)).find(({ kind }) => kind === 'startDrain');
    const filled = (await entriesOf(mavis)).find(({ kind }) => kind === 'admitted')!;
    const dueAt = filled.happenedAt - MINUTE_MS + 4 * HOUR_MS;

    const { device, page: board } = await openDevice();
    await movableClock(device);
    const bedside = await device.newPage();
    await signInAs(board, ward.origin, 'adair');
    await board.locator('[data-stream="live"]').waitFor();
    await bedside.goto(`${ward.origin}/patients/${draining}/bedside`);
    await bedside.getByRole('timer').waitFor();

    for (const aheadMs of [HOUR_MS, -HOUR_MS]) {
      for (const page of [board, bedside]) {
        await setTimeOfDay(page, aheadMs);
        expect(Math.abs(Number(await page.evaluate('Date.now()')) - Date.now() - aheadMs)).toBeLessThan(MINUTE_MS);
      }
      // Drawn anew from the clock, without asking the server for anything: the line goes on as it was.
      await board.getByRole('link', { name: 'Alerts', exact: true }).click();
      await board.getByRole('link', { name: 'Board', exact: true }).click();
      const left = async () => {
        const before = minuteOf(dueAt) - minuteOf(Date.now());
        const [hours = 0, minutes = 0] = (
          (await board.locator('li[data-bed="17"]').getByRole('timer').innerText()).match(/\d+/g) ?? []
        ).map(Number);
        const after = minuteOf(dueAt) - minuteOf(Date.now());
        const shown = hours * 60 + minutes;
        return after <= shown && shown <= before ? 'right' : `${shown} min, not ${after} to ${before}`;
      };
      await eventually(left).toBe('right');
      const runs = async () => {
        const since = () => Math.floor((Date.now() - drain!.happenedAt) / MINUTE_MS);
        const before = since();
        const shown = Number.parseInt(await bedside.getByRole('timer').innerText(), 10);
        const after = since();
        return before >= 3 && before <= shown && shown <= after ? 'right' : `${shown} min, not ${before} to ${after}`;
      };
      await eventually(runs).toBe('right');
    }
    await device.close();
  });

  it.each([
    ['now', 0],
    ['5 min ago', 5],
  ])('what is said to have been %s is so by the ward’s clock, to the second', async (words, minutes) => {
    const { device, page } = await openDevice();
    await movableClock(device);
    await signInAs(page, ward.origin, 'lindahl', `/patients/${mavis}/observations`);
    await page.getByText(words, { exact: true }).waitFor();
    await setTimeOfDay(page, HOUR_MS);
    await page.getByText(words, { exact: true }).click();
    const weightKg = 71 + minutes;
    const weight = page.getByRole('region', { name: 'Weight' });
    await weight.getByLabel('Weight').fill(String(weightKg));
    await weight.getByText('Full', { exact: true }).click();
    const before = Date.now();
    await weight.getByRole('button', { name: /^Keep/ }).click();
    const kept = async () =>
      (await entriesOf(mavis)).find(
        ({ kind, payload }) => kind === 'weight' && 'weightKg' in payload && payload.weightKg === weightKg,
      );
    await eventually(kept).toBeDefined();
    const { happenedAt, receivedAt } = (await kept())!;
    expect(happenedAt).toBeGreaterThanOrEqual(before - minutes * MINUTE_MS - 1000);
    expect(happenedAt).toBeLessThanOrEqual(receivedAt - minutes * MINUTE_MS + 1000);
    await device.close();
  });
});

describe('on a device in another time zone', () => {
  const words = async (page: Page) => (await page.locator('body').innerText()).replace(/\s+/g, ' ');
  /** Reads two pages until they say the same; else what the one says and the other does not. */
  const sameWords = (one: Page, other: Page) =>
    eventually(async () => {
      const [here, there] = (await Promise.all([words(one), words(other)])).map((text) => text.split(' '));
      const differing = here!.findIndex((word, index) => word !== there![index]);
      const near = (text: string[]) => text.slice(Math.max(0, differing - 4), differing + 5).join(' ');
      if (here!.length < 10) return 'nothing is there yet';
      return differing < 0 && here!.length === there!.length ? 'the same' : `${near(here!)} ≠ ${near(there!)}`;
    }).toBe('the same');

  it('every screen shows the ward’s time, also when the zone is changed while it is open', async () => {
    const { device: there, page: reference } = await openDevice('Europe/London');
    const { device: away, page: foreign } = await openDevice();
    const trouble = troubleOf(foreign);
    const debug = await away.newCDPSession(foreign);
    await debug.send('Emulation.setTimezoneOverride', { timezoneId: 'Asia/Tokyo' });
    await signInAs(reference, ward.origin, 'adair');
    await signInAs(foreign, ward.origin, 'adair');
    // Tokyo has had no summer time since 1951 (tz database): always nine hours ahead of UTC.
    expect(await foreign.evaluate(() => new Date().getTimezoneOffset())).toBe(-9 * 60);
    const ofWard = ['', '/alerts', '/setup', '/supplies', '/kept', '/wall'].map((tail) => `/ward/${WARD}${tail}`);
    const ofPatient = ['bedside', 'prescription', 'observations', 'rounds', 'inside', 'record'].map(
      (tail) => `/patients/${mavis}/${tail}`,
    );
    for (const path of [...ofWard, ...ofPatient]) {
      await Promise.all([reference.goto(ward.origin + path), foreign.goto(ward.origin + path)]);
      await sameWords(reference, foreign);
    }

    await debug.send('Emulation.setTimezoneOverride', { timezoneId: 'America/New_York' });
    expect(await foreign.evaluate(() => new Date().getTimezoneOffset())).toBeGreaterThan(0);
    await (await ward.as('okoro')).record(
      draft('weight', { weightKg: 68.5, cavity: 'full' }, { patientId: mavis, happenedAt: Date.now() - HOUR_MS }),
    );
    await foreign.getByText('68.5 kg').first().waitFor();
    await sameWords(reference, foreign);
    expect(trouble).toEqual([]);
    await Promise.all([there.close(), away.close()]);
  });
});

// Source: the tz database. Europe/London: back on 26 October 2025 at 01:00Z, forward on 30 March 2025 at 01:00Z.
describe('a time of a clock-change night that somebody types, on a device in New York', () => {
  it('is refused where the clocks skip it, asked about by its offset where it comes twice, and corrected likewise', async () => {
    const fillEndedAt = Date.UTC(2025, 9, 25, 18);
    const inside = { cavity: 'holding', solutionId: 'glucose-1.36', filledMl: 2000, fillEndedAt } as const;
    const items = [byLength('glucose-1.36', 2000, 240)];
    const id = await ward.admit({ family: 'HARGROVE', given: 'Della', bed: '4', inside, items });
    const { device, page } = await openDevice('America/New_York');
    const trouble = troubleOf(page);
    await signInAs(page, ward.origin, 'lindahl', `/patients/${id}/record?missed`);
    const typeAt = async (label: string, date: string, clock: string) => {
      const field = page.getByRole('group', { name: label });
      await field.getByLabel('Date', { exact: true }).fill(date);
      await field.getByLabel('Time', { exact: true }).fill(clock);
      return field;
    };
    await page.getByText('Drain only', { exact: true }).click();
    const skipped = await typeAt('Drain started', '2025-03-30', '01:30');
    expect(await skipped.getByRole('alert').innerText()).toBe(
      'Drain started: 01:30 does not exist on 2025-03-30: the clocks go forward over it. Write up to 00:59, or from 02:00.',
    );
    await typeAt('Drain started', '2025-10-26', '00:50');
    expect(await skipped.getByRole('alert').count()).toBe(0);

    const twice = await typeAt('Drain ended', '2025-10-26', '01:30');
    const asked = twice.getByRole('group', { name: '01:30 happens twice on 2025-10-26. Which was it?' });
    const choices = asked.getByRole('radio');
    expect(await asked.locator('label').allInnerTexts()).toEqual([
      '01:30 summer time (UTC+1)',
      '01:30 winter time (UTC+0)',
    ]);
    expect(await Promise.all((await choices.all()).map((choice) => choice.isChecked()))).toEqual([false, false]);
    await page.getByLabel('Drained, without flush').fill('2100');
    for (const choice of ['Measuring jug', 'Clear: print readable through the bag', 'It ran to a stop'])
      await page.getByText(choice, { exact: true }).click();
    for (const [group, choice] of [
      ['The patient', /^Name and birth date were held/],
      ['How the patient felt', /^Comfortable/],
    ] as const)
      await page.getByRole('group', { name: group }).getByText(choice).click();
    const enter = page.getByRole('button', { name: /^Enter it/ });
    expect(await enter.innerText()).toContain('missing: a time');
    await asked.getByText('01:30 winter time (UTC+0)').click();
    await enter.click();

    const drainEnd = async () => (await entriesOf(id)).find(({ kind }) => kind === 'endDrain');
    await eventually(async () => (await drainEnd())?.happenedAt).toBe(Date.UTC(2025, 9, 26, 1, 30));
    const drainStart = (await entriesOf(id)).find(({ kind }) => kind === 'startDrain');
    expect(drainStart?.happenedAt).toBe(Date.UTC(2025, 9, 25, 23, 50));

    // The record shows which of the two it is, and a correction begins with it.
    const line = page.getByRole('listitem').filter({ hasText: 'Drain finished' });
    await line.getByText('01:30 +00:00').first().waitFor();
    await line.getByRole('button', { name: /^Correct/ }).click();
    const again = page.getByRole('group', { name: 'When it happened' }).getByRole('group');
    await again.getByRole('radio', { name: '01:30 winter time (UTC+0)' }).waitFor();
    expect(await again.getByRole('radio', { name: '01:30 winter time (UTC+0)' }).isChecked()).toBe(true);
    await again.getByText('01:30 summer time (UTC+1)').click();
    await page.getByText('Time was wrong').click();
    await page.getByLabel('In words').fill('it was the first of the two');
    await page.getByRole('button', { name: /^Correct and sign as Lindahl/ }).click();
    await line.getByText('01:30 +01:00').first().waitFor();
    const correction = (await entriesOf(id)).find(({ kind }) => kind === 'corrected');
    expect(correction?.payload).toMatchObject({ happenedAt: Date.UTC(2025, 9, 26, 0, 30) });
    expect(trouble).toEqual([]);
    await device.close();
  });
});
