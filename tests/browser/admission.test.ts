import { fluidToTell } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { bedsideOf } from './bedside-steps.ts';
import { draft, filledHoursAgo, WARD } from './bedside-ward.ts';
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

const open = async (login = 'adair') => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login, `/ward/${WARD}/admit`);
};

const fillWho = async (family: string, number: string) => {
  await page.getByLabel('Family name').fill(family);
  await page.getByLabel('Given name').fill('Ida');
  await page.getByLabel('Born').fill('1937-04-04');
  await page.getByLabel('Gender').fill('female');
  await page.getByRole('textbox', { name: 'Hospital number', exact: true }).fill(number);
};
const bed = (name: string) => page.getByRole('group', { name: 'Bed' }).getByText(name, { exact: true });
const chronic = () => page.getByRole('group', { name: 'Dialysis' }).getByText('Chronic', { exact: true });
const admit = () => page.getByRole('button', { name: /^Admit and sign as Adair/ });
const idFromAddress = () => /patients\/([^/]+)/.exec(page.url())?.[1] ?? '';

describe('an admission', () => {
  it('with nothing known of what is inside shows points, stays incomplete, and is on the board at once', async () => {
    await open();
    // Nothing clinical is preselected: the tool guesses neither the bed nor the kind of dialysis.
    expect(await admit().innerText()).toContain('chronic or acute');
    await fillWho('SANDERLING-REYES', 'AP 205171');
    await bed('21').click();
    await chronic().click();
    await page.getByText('some of it is missing').click();
    await page.getByRole('img', { name: 'Points instead of a level' }).waitFor();
    await admit().click();
    await page.waitForURL(/\/patients\/.*\/prescription$/);
    const { state } = await bedsideOf(ward, idFromAddress());
    expect(state.cavity.state).toBe('unknown');
    expect(state.inside).toMatchObject({ bookMl: null, flowMl: null });
    await page.goto(`${ward.origin}/ward/${WARD}`);
    await page.locator('li[data-bed="21"]').getByText('SANDERLING-REYES').waitFor();
  });

  it('asks for what changes the care here: yes, no, or not asked, and never takes silence for a no', async () => {
    await open();
    await fillWho('MARCHETTI', 'AP 205300');
    await bed('19').click();
    await chronic().click();
    await page.getByText('some of it is missing').click();
    for (const about of ['Diabetes', 'Maltose or isomaltose intolerance', 'Glycogen storage disease'])
      expect(await page.getByRole('group', { name: about }).getByRole('radio', { name: 'Not asked' }).isChecked()).toBe(
        true,
      );
    await page.getByRole('group', { name: 'Diabetes' }).getByText('Yes', { exact: true }).click();
    await page.getByRole('group', { name: 'Maltose or isomaltose' }).getByText('No', { exact: true }).click();
    await admit().click();
    await page.waitForURL(/\/patients\/.*\/prescription$/);
    const id = idFromAddress();
    const { state } = await bedsideOf(ward, id);
    expect(state.cautions).toMatchObject({
      diabetes: { present: true },
      maltoseIntolerance: { present: false },
      glycogenStorageDisease: null,
    });
    await page.goto(`${ward.origin}/patients/${id}/observations`);
    await page
      .getByText(/Diabetes: yes, Maltose or isomaltose intolerance: no, Glycogen storage disease: not asked/)
      .waitFor();
  });

  it('with volume, strength and time handed over counts the dwell from that time', async () => {
    await open();
    await fillWho('OYELARAN', 'AP 204411');
    await bed('14').click();
    await chronic().click();
    await page.getByText('volume, strength and time').click();
    expect(await admit().innerText()).toContain('the volume, the strength, the time');
    await page.getByRole('textbox', { name: 'Volume' }).fill('2000');
    await page.getByText('2.5 %', { exact: true }).click();
    const at = new Date(Date.now() - 2 * 3_600_000);
    const local = new Intl.DateTimeFormat('sv-SE', {
      timeZone: 'Europe/London',
      dateStyle: 'short',
      timeStyle: 'short',
    });
    const [date = '', clock = ''] = local.format(at).split(' ');
    await page.getByRole('textbox', { name: 'Date' }).fill(date);
    await page.getByRole('textbox', { name: 'Time' }).fill(clock);
    await admit().click();
    await page.waitForURL(/\/patients\/.*\/prescription$/);
    const { state } = await bedsideOf(ward, idFromAddress());
    expect(state.cavity).toMatchObject({ state: 'holding', fills: [{ solutionId: 'glucose-2.27', filledMl: 2000 }] });
    expect(state.cavity.since).toBe(Math.floor(at.getTime() / 60_000) * 60_000);
  });

  it('of a patient whom the hospital knows takes no second patient', async () => {
    const id = await ward.admit({ family: 'THISTLEWOOD', given: 'Joan', bed: '8', inside: filledHoursAgo(3) });
    const fluid = { toWhom: 'the home nurse', said: fluidToTell((await bedsideOf(ward, id)).state)! };
    await (await ward.as('adair')).record(
      draft('discharged', { to: 'home', handover: null, fluid }, { patientId: id }),
    );
    await open();
    await page.getByLabel(/^Known already/).fill('thistle');
    await page.getByRole('button', { name: /Choose ?THISTLEWOOD/ }).click();
    await bed('7').click();
    await chronic().click();
    await page.getByText('drained, and nothing filled since').click();
    await admit().click();
    await page.waitForURL(new RegExp(`/patients/${id}/prescription$`));
    expect((await bedsideOf(ward, id)).bed).toBe('7');
  });

  it('is the charge nurse’s: others are told so', async () => {
    await open('lindahl');
    await page.getByRole('button', { name: /^Admit and sign as Lindahl/ }).waitFor();
    expect(await page.getByRole('button', { name: /^Admit and sign/ }).innerText()).toContain(
      'the charge nurse admits',
    );
  });
});
