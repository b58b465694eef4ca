import type { Additive } from '@slackwater/domain';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bedsideOf, carryTo } from './bedside-steps.ts';
import { byLength, filledHoursAgo, PASSWORD } from './bedside-ward.ts';
import { openBoardWard, signInAs, troubleOf } from './board-page.ts';

const CEFAZOLIN: Additive = { what: 'cefazolin', amount: 1, unit: 'g', kind: 'antibiotic', minimumDwellMinutes: 360 };

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let bed = 8;

beforeAll(async () => {
  ward = await openBoardWard();
});
afterAll(() => ward.close());

/** A patient who was drained and waits for a bag with an antibiotic. */
async function drained(family: string): Promise<string> {
  bed += 1;
  const items = [{ ...byLength('glucose-1.36', 2000, 480), additives: [CEFAZOLIN] }];
  const id = await ward.admit({ family, given: 'Isolde', bed: String(bed), inside: filledHoursAgo(5), items });
  await carryTo(ward, id, 'read');
  return id;
}

/** Each person has a browser page of their own; the same profile would share the sign-in. */
async function pageOf(login: string, path: string) {
  const context = await ward.context.browser()!.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, login, path);
  return { page, trouble, close: () => context.close() };
}

async function lookAtAll(form: Page | Locator) {
  for (const what of ['The patient', 'The bag', 'The additive', 'The amount']) {
    await form.getByRole('checkbox', { name: new RegExp(`^${what}`) }).check();
  }
  await form.getByText('Yes, as ordered').click();
}

describe('two people at a bag with an antibiotic', () => {
  it('sign one after another at the same tablet, and the first one stays signed in', async () => {
    const id = await drained('BRANNOCK');
    const { page, trouble, close } = await pageOf('lindahl', `/patients/${id}/bedside`);
    await page.getByText('cefazolin 1 g, to dwell 6 h at the least').first().waitFor();
    expect(await page.getByRole('button', { name: /fill has started/ }).count()).toBe(0);
    await page.getByRole('button', { name: 'Ask a second person' }).click();
    const form = page.getByRole('form', { name: 'Second person at this device' });
    await lookAtAll(form);
    await form.getByLabel('Second person’s sign-in name').fill('okoro');
    await form.getByLabel('Second person’s password').fill(PASSWORD);
    await form.getByRole('button', { name: /^Sign as second person/ }).click();
    await page.getByText(/Adaeze Okoro agrees/).waitFor();
    await page.getByRole('button', { name: /fill has started/ }).click();
    await expect
      .poll(async () => (await bedsideOf(ward, id)).state.visit?.fill?.additives, { timeout: 20_000 })
      .toEqual([CEFAZOLIN]);
    expect(trouble).toEqual([]);
    await close();
  });

  it('or the second one from her own screen, where the board says that somebody waits', async () => {
    const id = await drained('MARCHETTI');
    const first = await pageOf('lindahl', `/patients/${id}/bedside`);
    await first.page.getByRole('button', { name: 'Ask a second person' }).click();
    await first.page.getByText(/Waits for a second person since/).waitFor();

    const second = await pageOf('okoro', '/ward/kestrel');
    await second.page.getByText(/waits for a second person since/).waitFor();
    await second.page.getByRole('link', { name: /MARCHETTI/ }).click();
    const beside = second.page.getByRole('complementary', { name: 'Beside it' });
    await beside.getByRole('heading', { name: 'Waits for a second person' }).waitFor();
    await lookAtAll(beside);
    await beside.getByRole('button', { name: /^Sign as second person/ }).click();

    await first.page.getByText(/Adaeze Okoro agrees/).waitFor();
    await first.page.getByRole('button', { name: /fill has started/ }).click();
    await expect.poll(async () => (await bedsideOf(ward, id)).state.visit?.state, { timeout: 20_000 }).toBe('filling');
    expect([...first.trouble, ...second.trouble]).toEqual([]);
    await Promise.all([first.close(), second.close()]);
  });
});
