import { randomUUID } from 'node:crypto';
import { HOUR_MS } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import { accessFaults, openBoardWard, signInAs, type Theme, useTheme } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let patientId: string;

beforeAll(async () => {
  ward = await openBoardWard();
  patientId = await ward.admit({
    family: 'BRANNOCK',
    given: 'Isolde',
    bed: '9',
    inside: filledHoursAgo(4.5),
    items: [byLength('glucose-2.27', 2000, 270)],
  });
  const nurse = await ward.as('lindahl');
  const { account } = await nurse.get<{ account: { id: string } }>('/api/session');
  for (const weightKg of [70.5, 70.6]) {
    const late = draft('weight', { weightKg, cavity: 'full' }, { patientId, happenedAt: Date.now() + HOUR_MS });
    const batch = {
      authorId: account.id,
      wardId: WARD,
      deviceAt: Date.now(),
      entries: [{ ...late, id: randomUUID() }],
    };
    await nurse.post('/api/outbox', batch);
  }
  page = await ward.context.newPage();
});
afterAll(() => ward.close());

const SIZES = [
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
] as const;
const THEMES: readonly Theme[] = ['light', 'dark', 'forced colours'];

/** What axe-core finds at a tablet and a phone, and whether anything is wider than the screen. */
const looksFine = async (what: string) => {
  for (const theme of THEMES) {
    await useTheme(page, theme);
    for (const size of SIZES) {
      await page.setViewportSize(size);
      expect(await accessFaults(page), `${what}, ${theme} at ${size.width}`).toEqual([]);
      const wide = await page.evaluate('document.documentElement.scrollWidth');
      expect(wide, `${what} at ${size.width}`).toBeLessThanOrEqual(size.width);
      if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/${what}-${theme}-${size.width}.png` });
    }
  }
};

it('what is kept for a decision meets WCAG 2.2 A and AA, for its author and for the charge nurse', async () => {
  await signInAs(page, ward.origin, 'lindahl', `/ward/${WARD}/kept`);
  await page.getByRole('region', { name: 'Kept for you' }).getByRole('article').waitFor();
  await page
    .getByRole('button', { name: /^Time of/ })
    .first()
    .click();
  await looksFine('kept-mine');
  await signInAs(page, ward.origin, 'adair', `/ward/${WARD}/kept`);
  await page.getByRole('region', { name: 'Kept on the ward' }).getByRole('article').waitFor();
  await looksFine('kept-ward');
});

it('a bedside without network and what waits on the device meet WCAG 2.2 A and AA', async () => {
  await page.setViewportSize(SIZES[0]);
  await signInAs(page, ward.origin, 'lindahl', `/patients/${patientId}/bedside`);
  await page.getByText('Kept for you: 2').waitFor();
  await ward.context.setOffline(true);
  await page
    .getByRole('button', { name: /^2\.5 %, ?2,000 ?mL$/ })
    .first()
    .click();
  await page.getByRole('button', { name: /All six are right/ }).click();
  await page.getByText(/Go on\. 1 entry waits on this device/).waitFor();
  await looksFine('offline');
  await page.getByRole('button', { name: '1 on this device' }).click();
  await page.getByRole('dialog', { name: '1 entry on this device' }).waitFor();
  await looksFine('waiting');
});
