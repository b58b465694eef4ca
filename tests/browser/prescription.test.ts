import { HOUR_MS } from '@slackwater/domain';
import { dateAt, readTypedTime } from '@slackwater/domain/time/zone';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { bedsideOf } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo } from './bedside-ward.ts';
import { accessFaults, openBoardWard, signInAs, troubleOf, useTheme } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];
let id: string;

beforeAll(async () => {
  ward = await openBoardWard();
  id = await ward.admit({
    family: 'BRANNOCK',
    given: 'Isolde',
    bed: '9',
    inside: filledHoursAgo(2),
    items: [byLength('glucose-1.36', 2000, 270), byLength('glucose-3.86', 2000, 540)],
  });
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

const open = async (login: string) => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login, `/patients/${id}/prescription`);
};

describe('the prescription', () => {
  it('a new revision stands beside the one in force; what changes is said, signed, and in sight at the bedside', async () => {
    await open('solberg');
    await page.getByRole('button', { name: 'New revision' }).click();
    const sign = page.getByRole('button', { name: /^Sign revision 2 as Solberg/ });
    expect(await sign.innerText()).toContain('nothing is different');
    await page.getByLabel('Strength of exchange 1').selectOption('glucose-2.27');
    await page.getByLabel('Fill 1').fill('1800');
    await page.getByText(/^Exchange 1: .*2\.5 % instead of 1\.5 %/).waitFor();
    await page.getByLabel('Dwell 2').fill('9');
    await page.getByText('“9”: write 4 h 30 min, 4 h or 90 min.').waitFor();
    expect(await sign.getAttribute('aria-disabled')).toBe('true');
    await page.getByLabel('Dwell 2').fill('9 h');
    await page.getByLabel('Reason').fill('1.5 % retains');
    await sign.click();
    await page.getByRole('heading', { name: 'Revision 2' }).waitFor();
    const { state } = await bedsideOf(ward, id);
    expect(state.prescription?.items[0]).toMatchObject({ solutionId: 'glucose-2.27', fillMl: 1800 });
    // The dwell inside keeps what it was filled under: the new revision acts from the next fill.
    expect(state.cavity).toMatchObject({ state: 'holding', fills: [{ solutionId: 'glucose-1.36' }] });
  });

  it('a time of review is carried over in sight, and the same again is that review', async () => {
    const zone = 'Europe/London';
    const day = dateAt(Date.now() + 48 * HOUR_MS, zone);
    const time = readTypedTime(day, '09:30', zone);
    const reviewBy = time.is === 'one' ? time.at : null;
    expect(reviewBy).not.toBeNull();
    const sign = page.getByRole('button', { name: /^Sign revision/ });
    await open('solberg');
    await page.getByRole('button', { name: 'New revision' }).click();
    const review = page.getByRole('group', { name: 'Review by' });
    expect(await review.getByLabel('Date').inputValue()).toBe('');
    await review.getByLabel('Date').fill(day);
    expect(await sign.innerText()).toContain('something is missing or cannot be read yet');
    await review.getByLabel('Time').fill('09:30');
    await page.getByText(`review by ${formatIsoDate(day)} 09:30, new`).waitFor();
    await sign.click();
    await page.getByText(`Review by ${formatIsoDate(day)} 09:30`).waitFor();
    await page.getByRole('button', { name: 'New revision' }).click();
    expect(await review.getByLabel('Date').inputValue()).toBe(day);
    expect(await review.getByLabel('Time').inputValue()).toBe('09:30');
    await page.getByText('Nothing is different: signed, the same again is the review.').waitFor();
    const before = (await bedsideOf(ward, id)).state.prescription;
    await sign.click();
    await page.getByRole('heading', { name: `Revision ${(before?.number ?? 0) + 1}` }).waitFor();
    expect((await bedsideOf(ward, id)).state.prescription).toMatchObject({ reviewBy, items: before?.items });
  });

  it('of icodextrin is cautioned: what stands against it, what nobody was asked, the allergies; it stops nothing', async () => {
    const asked = { about: 'maltoseIntolerance', present: true, note: null } as const;
    await (await ward.as('lindahl')).record(draft('caution', asked, { patientId: id }));
    await open('solberg');
    await page.getByRole('button', { name: /^(New revision|Prescribe)/ }).click();
    const caution = page.getByRole('note').filter({ hasText: 'Icodextrin.' });
    expect(await caution.count()).toBe(0);
    await page.getByLabel('Strength of exchange 1').selectOption('icodextrin-7.5');
    await caution.getByText('Maltose or isomaltose intolerance: icodextrin is not for this patient.').waitFor();
    expect(await caution.innerText()).toMatch(
      /Glycogen storage disease: nobody was asked\. .*Allergy: chlorhexidine\./,
    );
    expect(await page.getByRole('button', { name: /^Sign revision/ }).getAttribute('aria-disabled')).toBeNull();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Put aside' }).click();
  });

  it('is a physician’s: a nurse reads it and is told why she may not write', async () => {
    await open('lindahl');
    const button = page.getByRole('button', { name: /^New revision/ });
    await button.waitFor();
    expect(await button.innerText()).toContain('a physician prescribes');
  });

  it('an order by telephone needs the physician and the read-back, and is countersigned by a physician', async () => {
    await open('lindahl');
    await page.getByRole('button', { name: 'Order by telephone' }).click();
    await page.getByText('Drain now').click();
    const give = page.getByRole('button', { name: /^Give the order/ });
    expect(await give.innerText()).toContain('the physician');
    await page.getByLabel('Physician who gave it').fill('Dr Imre Solberg');
    expect(await give.innerText()).toContain('the read-back');
    await page.getByRole('checkbox', { name: /Read back: “Drain now”/ }).check();
    await give.click();
    await page.getByText(/To be countersigned by/).waitFor();
    await open('solberg');
    await page.getByRole('button', { name: 'Countersign' }).click();
    await page.getByText(/Countersigned by Dr Imre Solberg/).waitFor();
    await page.getByRole('button', { name: /^End it/ }).click();
    await page.getByLabel('Reason, for a withdrawal').fill('she is asleep');
    await page.getByRole('button', { name: 'Withdraw it' }).click();
    await expect
      .poll(async () => (await bedsideOf(ward, id)).state.orders.filter((one) => one.endedAt === null))
      .toEqual([]);
  });

  it('a hold says until when it is looked at again, and is lifted', async () => {
    await open('solberg');
    await page.getByRole('button', { name: 'Hold further fills' }).click();
    await page.getByRole('dialog').getByLabel('Reason').fill('computed tomography');
    await page.getByRole('button', { name: 'Hold', exact: true }).click();
    await page.getByRole('heading', { name: 'On hold' }).waitFor();
    expect((await bedsideOf(ward, id)).state.hold).toMatchObject({ reason: 'computed tomography' });
    await page.getByRole('button', { name: 'Lift the hold' }).click();
    await page.getByRole('heading', { name: 'Fills go on' }).waitFor();
  });
});
