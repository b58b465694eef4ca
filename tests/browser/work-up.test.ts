import type { BedsideView } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain';
import { dateAt } from '@slackwater/domain/time/zone';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import { accessFaults, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];
let beds = 0;

const patient = (family: string) => {
  beds += 1;
  const items = [byLength('glucose-1.36', 2000, 270)];
  return ward.admit({ family, given: 'Isolde', bed: String(beds), inside: filledHoursAgo(4.5), items });
};
const stateOf = async (id: string) =>
  (await (await ward.as('lindahl')).get<BedsideView>(`/api/patients/${id}/bedside`)).state;
const button = (name: string | RegExp) => page.getByRole('button', { name });
const pick = (name: string | RegExp) =>
  page.getByLabel(name, { exact: typeof name === 'string' }).check({ force: true });

const signIn = async (login: string) => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login);
};

beforeAll(async () => {
  ward = await openBoardWard();
});
afterAll(() => ward.close());
beforeEach(async () => {
  page = await ward.context.newPage();
  trouble = troubleOf(page);
  return async () => {
    await page.close();
    expect(trouble).toEqual([]);
  };
});

describe('a cloudy drain', () => {
  it('is followed from the look at it to the results and the conclusion', async () => {
    const id = await patient('PELLOW');
    await carryTo(ward, id, 'draining', { minutesAgo: { prepare: 30, startDrain: 20 } });
    await signIn('lindahl');
    await page.goto(`${ward.origin}/patients/${id}/bedside`);

    // The look: nothing is chosen before she chooses it; the ward's response stands beside it at once.
    await button('Something else').click();
    expect(await page.getByRole('checkbox', { name: 'Cloudy' }).isChecked()).toBe(false);
    await pick('Cloudy');
    await page.getByRole('heading', { name: 'Cloudy: peritonitis until excluded' }).waitFor();
    await page.getByText('before any antibiotic').waitFor();
    await page.getByLabel('Whom').fill('Dr Imre Solberg');
    await button('Not reached').click();
    await page.getByText('1 of 2 criteria: cloudy effluent; no sample taken').waitFor();
    const opened = await stateOf(id);
    expect(opened.told).toMatchObject([
      { whom: 'Dr Imre Solberg', notReached: true, finding: { finding: 'cloudy', cause: opened.workUps[0]?.drainId } },
    ]);

    // The sample: from that drain, its dwell from the record.
    await page.getByRole('link', { name: /Sample, results/ }).click();
    await page.getByRole('heading', { name: /^Suspected peritonitis since/ }).waitFor();
    for (const test of ['cell count with differential', 'Gram stain', 'culture']) {
      await page.getByRole('checkbox', { name: test, exact: true }).check({ force: true });
    }
    await page.getByText('The dwell was 2 h or longer').waitFor();
    await page.getByLabel(/^Blood-culture bottles/).fill('2');
    await pick('Before any');
    await page.getByLabel('Where the bag is kept').fill('sluice, shelf 2');
    await button('Sample taken').click();
    await page.getByText(/^1 of 2 criteria: cloudy effluent; results awaited since \d\d:\d\d$/).waitFor();

    // The report: without its unit a count is not kept, and is said back in one unit.
    await page.getByLabel('White cells', { exact: true }).fill('0.48');
    await page.getByLabel('Polymorphs').fill('82');
    expect(await button('Keep the result').getAttribute('aria-disabled')).toBe('true');
    await pick('× 10⁹/L');
    await page.getByText('That is 480/µL.').waitFor();
    await button('Keep the result').click();
    await page.getByText(/^Peritonitis by 2 of 3 criteria: cloudy effluent, cells; culture awaited/).waitFor();
    expect(await accessFaults(page)).toEqual([]);

    // Nothing is counted from an antibiotic before somebody says that the organism answers to it.
    await page.getByText('No antibiotic is recorded: clearing is not counted.').waitFor();
    const antibiotic = page.getByRole('region', { name: 'Antibiotic' });
    for (const [answer, says] of [
      ['Not known yet', 'Nobody has said yet that the organism answers to vancomycin: clearing is not counted.'],
      ['Yes, by the report', /days? of an antibiotic that the organism answers to, .* too early to say/],
    ] as const) {
      await antibiotic.getByLabel('Which').fill('vancomycin');
      await antibiotic.getByLabel('First day').fill(dateAt(Date.now() - 24 * HOUR_MS, 'Europe/London'));
      await antibiotic.getByText(answer, { exact: true }).click();
      await antibiotic.getByRole('button', { name: 'Keep the antibiotic' }).click();
      await page.getByText(says).waitFor();
    }
    expect(await accessFaults(page)).toEqual([]);

    // A nurse does not conclude; the physician does.
    expect(await button('Conclude the work-up').getAttribute('aria-disabled')).toBe('true');
    await signIn('solberg');
    await page.goto(`${ward.origin}/patients/${id}/work-up`);
    await page.getByLabel('Peritonitis', { exact: true }).check({ force: true });
    await page.getByLabel(/^The reason/).fill('Two of three criteria');
    await button('Conclude the work-up').click();
    await page.getByText('Two of three criteria').waitFor();
    expect((await stateOf(id)).workUps[0]?.closed).toMatchObject({ conclusion: 'peritonitis' });
  });

  it('stands on the board by what it waits for', async () => {
    const id = await patient('ASHBY');
    await carryTo(ward, id, 'drained', { appearance: ['cloudy'] });
    await signIn('adair');
    await page.goto(`${ward.origin}/ward/${WARD}`);
    await page.locator('li', { hasText: 'ASHBY' }).getByText('work-up: sample').waitFor();
  });
});

it('a breathless patient after a short drain is not offered a fill', async () => {
  const id = await patient('THISTLE');
  await carryTo(ward, id, 'read', { readingMl: 1500 });
  const { visit } = await stateOf(id);
  const comfort = { pain: 0, phase: null, cramp: false, breathless: true, leakAtExit: false, swelling: false };
  await (await ward.as('lindahl')).record(
    draft('comfort', { phase: 'drain', comfort }, { patientId: id, visitId: visit?.id ?? null }),
  );
  await signIn('lindahl');
  await page.goto(`${ward.origin}/patients/${id}/bedside`);
  await page.getByRole('heading', { name: 'The fill is not offered' }).waitFor();
  await page
    .getByText(/A short drain with breathlessness/)
    .first()
    .waitFor();
  expect(await button('Fill all the same').getAttribute('aria-disabled')).toBe('true');
});

it('the exit site is kept sign by sign, and a low score is said not to exclude an infection', async () => {
  const id = await patient('GARNET');
  await signIn('lindahl');
  await page.goto(`${ward.origin}/patients/${id}/observations`);
  const card = page.getByRole('region', { name: 'Exit site' });
  const keep = card.getByRole('button', { name: /^Keep/ });
  expect(await keep.getAttribute('aria-disabled')).toBe('true');
  for (const sign of ['Swelling', 'Crust', 'Redness', 'Pain', 'Drainage']) {
    const grade = sign === 'Redness' ? 'Some' : 'None';
    await card.getByRole('group', { name: sign }).getByLabel(grade).check({ force: true });
  }
  await card.getByText('Score 1 of 10: an infection is not excluded.').waitFor();
  await keep.click();
  await expect.poll(async () => (await stateOf(id)).exitSite?.redness, { timeout: 20_000 }).toBe(1);
});

it('a symptom that asks for somebody: whom is typed, and whether they were reached is chosen by the person', async () => {
  const id = await patient('HARROW');
  await signIn('lindahl');
  await page.goto(`${ward.origin}/patients/${id}/observations`);
  const card = page.getByRole('region', { name: 'Symptoms' });
  await card.getByText('Breathless', { exact: true }).click();
  await card.getByLabel('Whom').fill('Dr Imre Solberg');
  const reached = card.getByRole('group', { name: 'Reached' });
  expect(await reached.getByRole('radio', { checked: true }).count()).toBe(0);
  const keep = card.getByRole('button', { name: /^Keep the symptoms/ });
  expect(await keep.innerText()).toContain('reached or not?');
  await reached.getByText('Not reached').click();
  await keep.click();
  await expect
    .poll(async () => (await stateOf(id)).told, { timeout: 20_000 })
    .toMatchObject([{ whom: 'Dr Imre Solberg', notReached: true }]);
});
