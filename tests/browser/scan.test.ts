import type { EntryPage } from '@slackwater/contract';
import type { SupplyChange } from '@slackwater/domain';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { byLength, draft, filledHoursAgo } from './bedside-ward.ts';
import { accessFaults, openBoardWard, signInAs, troubleOf, useTheme } from './board-page.ts';

/** 952: GS1's prefix for demonstrations. */
const MIDDLE = '09521234543213';
const STRONG = '09521234543220';
const UNKNOWN = '09521234543237';
const label = (gtin: string, lot = 'AB123', expiry = '600831') => `01${gtin}17${expiry}10${lot}`;

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];
let bed = 0;

beforeAll(async () => {
  ward = await openBoardWard();
  const charge = await ward.as('adair');
  const say = (change: SupplyChange) => charge.record(draft('suppliesChanged', { change }, { patientId: null }));
  await say({ what: 'productListed', product: { gtin: MIDDLE, solutionId: 'glucose-2.27', labelledMl: 2000 } });
  await say({ what: 'productListed', product: { gtin: STRONG, solutionId: 'glucose-3.86', labelledMl: 2000 } });
  await say({ what: 'lotRecalled', lot: 'LEAK7', of: { gtin: MIDDLE }, reason: 'leaks at the port' });
});
afterAll(() => ward.close());
beforeEach(async () => {
  page = await ward.context.newPage();
  await page.setViewportSize({ width: 1024, height: 900 });
  trouble = troubleOf(page);
  await useTheme(page, 'light');
  return async () => {
    await page.close();
    expect(trouble).toEqual([]);
  };
});

/** A patient for whom 2,000 mL of 2.5 % is prescribed next; her hospital number. */
const patient = async (): Promise<{ id: string; hospitalNumber: string }> => {
  bed += 1;
  const id = await ward.admit({
    family: `BRANNOCK${'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[bed]}`,
    given: 'Isolde',
    bed: String(bed),
    inside: filledHoursAgo(4.5),
    items: [byLength('glucose-2.27', 2000, 270)],
  });
  return { id, hospitalNumber: `AP ${id.slice(0, 6)}` };
};
const open = async (patientId: string, login = 'lindahl') => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login, `/patients/${patientId}/bedside`);
  await field().waitFor();
};
const button = (name: RegExp | string): Locator => page.getByRole('button', { name });
const alert = () => page.getByRole('alert');
const field = () => page.getByLabel('Scan or type the label');
const type = async (text: string) => {
  // beside the checks of a bag the field is one touch away
  const unfold = button('Type a label or wristband');
  if ((await unfold.count()) > 0) await unfold.click();
  await field().fill(text);
  await field().press('Enter');
};
const prepared = async (patientId: string) => {
  const path = `/api/patients/${patientId}/entries?limit=100`;
  const { entries } = await (await ward.as('lindahl')).get<EntryPage>(path);
  const entry = entries.find(({ kind }) => kind === 'prepare');
  return entry?.kind === 'prepare' ? entry.payload : null;
};
/** A scanner's strokes as fast as the page takes them, wherever the focus is. */
const scan = (text: string) =>
  page.evaluate(
    (keys) => {
      for (const key of keys) {
        const stroke = key === '\u001d' ? { key: ']', ctrlKey: true } : { key };
        const target = document.activeElement ?? document.body;
        target.dispatchEvent(new KeyboardEvent('keydown', { ...stroke, bubbles: true, cancelable: true }));
      }
    },
    [...text, 'Enter'],
  );

describe('a scan at the bedside', () => {
  it('of wristband and bag fills everything in, costs no touch, and stands in the record as it was read', async () => {
    const { id, hospitalNumber } = await patient();
    await open(id);
    await scan(hospitalNumber);
    await scan(`01${MIDDLE}10AB123\u001d17600831`);
    await page.getByText(`wristband says ${hospitalNumber}`).waitFor();
    await page.getByRole('row', { name: /Lot.*AB123.*no recall/ }).waitFor();
    await page.getByRole('row', { name: /Expiry.*31-Aug-2060.*in date/ }).waitFor();
    expect(await page.getByText('Wristband says this name').count()).toBe(0);
    await button(/go to connect/).click();
    await page
      .getByText('Put this down')
      .or(button(/drain has started|connected/i))
      .first()
      .waitFor();
    expect(await prepared(id)).toMatchObject({
      identifiers: ['hospitalNumber', 'wristband'],
      bag: {
        solutionId: 'glucose-2.27',
        labelledMl: 2000,
        lot: 'AB123',
        expiresOn: '2060-08-31',
        read: 'scanned',
        label: `01${MIDDLE}10AB123\u001d17600831`,
      },
    });
  });

  it('says each way in which it fails, and takes nothing over', async () => {
    const { id } = await patient();
    await open(id);
    const ways: [string, RegExp][] = [
      [label(`${MIDDLE.slice(0, 13)}4`), /Wrong check digit.*ends with 4.*ask for 3/],
      [label(MIDDLE, 'AB123', '601301'), /Impossible date.*month.*01 to 12/],
      [`01${MIDDLE}10AB12317600831`, /separator may be missing.*AB12317600831/],
      ['HELLO', /“HELLO” is not a GS1 code.*If it was a wristband, it is not this patient’s/],
      [label(UNKNOWN), new RegExp(`Product ${UNKNOWN} is not listed.*lot AB123, expiry 31-Aug-2060`)],
    ];
    for (const [text, words] of ways) {
      await type(text);
      await alert().filter({ hasText: words }).waitFor();
    }
    expect(await button(/go to connect/).count()).toBe(0);
    // typing goes on: the label was read, strength and amount are touched
    await button(/^2\.5 %, ?2,000 ?mL$/)
      .first()
      .click();
    await page.getByRole('row', { name: /Lot.*AB123/ }).waitFor();
  });

  it('of another strength, an expired bag and a recalled lot stops, each with its ways on', async () => {
    const { id } = await patient();
    await open(id);
    await type(label(STRONG));
    await alert().filter({ hasText: '4.25 % in hand, 2.5 % prescribed.' }).waitFor();
    expect(await button(/An order allows/).count()).toBe(1);
    await button('Take another bag').click();
    // No order makes an expired or a recalled bag the right one, and a nurse goes on with neither.
    for (const [text, why] of [
      [label(MIDDLE, 'AB123', '240831'), 'Expired 31-Aug-2024.'],
      [label(MIDDLE, 'leak7'), 'Lot leak7 is recalled: leaks at the port.'],
    ] as const) {
      await type(text);
      await alert().filter({ hasText: why }).waitFor();
      expect(await button(/An order allows/).count()).toBe(0);
      expect(await button(/Use it all the same/).getAttribute('aria-disabled')).toBe('true');
      expect(await button(/Use it all the same/).innerText()).toContain(
        'a charge nurse or a nephrologist, with a reason',
      );
      await button('Take another bag').click();
    }
  });

  it('of an expired bag is gone on with by a charge nurse: with a reason, a caution, and the checks by eye and hand', async () => {
    const { id } = await patient();
    await open(id, 'adair');
    const caution = page.getByRole('note').filter({ hasText: 'Expired 31-Aug-2024. Used all the same.' });
    const goOn = async () => {
      await type(label(MIDDLE, 'AB123', '240831'));
      await button(/Use it all the same/).click();
      const dialog = page.getByRole('dialog');
      await dialog.getByText('Local policy decides whether such a bag may be used at all').waitFor();
      const sign = dialog.getByRole('button', { name: /^Sign as Rowan Adair/ });
      expect(await sign.innerText()).toContain('the reason is missing');
      await dialog.getByLabel('Reason, in words').fill('the last bag, pharmacy agrees');
      await sign.click();
      await caution.waitFor();
    };
    await goOn();
    // It was said of that bag alone: another one is stopped anew.
    await type(label(MIDDLE, 'leak7'));
    await alert().filter({ hasText: 'Lot leak7 is recalled' }).waitFor();
    await button('Take another bag').click();
    await goOn();
    // Where nothing has to be scrolled under the actions: what they cover for a moment is no fault of its own.
    await page.setViewportSize({ width: 1024, height: 1200 });
    expect(await accessFaults(page)).toEqual([]);
    await button(/^The rest is right: go to connect with this bag/).click();
    await button(/^Connected/).waitFor();
    const charge = await ward.as('adair');
    const { entries } = await charge.get<EntryPage>(`/api/patients/${id}/entries?limit=100`);
    expect(entries.find(({ kind }) => kind === 'prepare')?.payload).toMatchObject({
      bag: { expiresOn: '2024-08-31' },
      override: { reason: 'the last bag, pharmacy agrees', physician: null },
    });
    await page.goto(`${ward.origin}/patients/${id}/record`);
    await page
      .getByText(/expires 31-Aug-2024, lot AB123, against the bag check: the last bag, pharmacy agrees/)
      .waitFor();
  });

  it('of another patient’s wristband stops everything until the right one is read, and names nobody', async () => {
    const other = await patient();
    const { id, hospitalNumber } = await patient();
    await open(id);
    await type(label(MIDDLE));
    await button(/go to connect/).waitFor();
    // Who else is on the ward is known from its board.
    await page.getByText('Live', { exact: true }).first().waitFor();
    await type(other.hospitalNumber);
    const stop = alert().filter({ hasText: 'This is another patient' });
    await stop.waitFor();
    expect(await stop.textContent()).toContain(`bed ${bed - 1}`);
    expect(await stop.textContent()).not.toContain('BRANNOCK');
    expect(await button(/go to connect/).getAttribute('aria-disabled')).toBe('true');
    await type(hospitalNumber);
    await stop.waitFor({ state: 'detached' });
    expect(await button(/go to connect/).getAttribute('aria-disabled')).toBeNull();
  });

  it('never takes what somebody types, however fast', async () => {
    const { id } = await patient();
    await open(id);
    await field().focus();
    await scan(label(MIDDLE));
    expect(await button(/go to connect/).count()).toBe(0);
  });
});

describe('products, recalls, lots', () => {
  it('a charge nurse lists a product at the bed, and the scan is read again', async () => {
    const { id } = await patient();
    await open(id, 'adair');
    await type(label(UNKNOWN, 'NEW1'));
    await button('List this product').click();
    const dialog = page.getByRole('dialog');
    await dialog
      .getByRole('button', { name: /^2\.5 %, ?2,000 ?mL$/ })
      .first()
      .click();
    await dialog.getByRole('button', { name: /List it as 2.5 %/ }).click();
    await page.getByRole('row', { name: /Lot.*NEW1/ }).waitFor();
  });

  it('who had a lot is one search; a lot is recalled and the recall ended', async () => {
    const { id } = await patient();
    await open(id);
    await type(label(MIDDLE, 'SEEK9'));
    await button(/go to connect/).click();
    await page
      .getByText('Put this down')
      .or(button(/drain has started|connected/i))
      .first()
      .waitFor();
    await page.goto('about:blank');
    await ward.context.clearCookies();
    await signInAs(page, ward.origin, 'adair', '/ward/kestrel/supplies');
    await page.getByLabel('Lot, as it is printed').fill('seek9');
    await button('Find the patients').click();
    await page.getByText('Lot seek9: 1 patient, 1 bag.').waitFor();
    await page.getByRole('row', { name: /Isolde.*checked, no fill recorded/ }).waitFor();
    const recalls = page.getByRole('region', { name: 'Recalls' });
    await recalls.getByLabel('Lot', { exact: true }).fill('SEEK9');
    await recalls.getByLabel('Of').selectOption('solution/glucose-2.27');
    await recalls.getByLabel('Reason, in words').fill('particles');
    await recalls.getByRole('button', { name: 'Recall this lot' }).click();
    const row = recalls.getByRole('row', { name: /SEEK9.*particles/ });
    await row.getByRole('button', { name: /End it/ }).click();
    await page.getByRole('dialog').getByLabel('Reason, in words').fill('tested');
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /End it/ })
      .click();
    await recalls.getByRole('row', { name: /SEEK9.*ended.*tested/ }).waitFor();
  });
});
