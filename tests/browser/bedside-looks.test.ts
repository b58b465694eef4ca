import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import {
  expectAccessibleIn,
  openBoardWard,
  signInAs,
  themesByTurns,
  troubleOf,
  useTheme,
  widerThanPage,
} from './board-page.ts';

/** Tablet across and upright, phone, desk: the widths at which a bedside is used. */
const SIZES = [
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
  { width: 1440, height: 900 },
] as const;

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];

const patients: Record<string, string> = {};
const items = () => [byLength('glucose-2.27', 2000, 270), byLength('glucose-1.36', 2000, 270)];

beforeAll(async () => {
  ward = await openBoardWard();
  const admit = (name: string, bed: string, inside = filledHoursAgo(4.5)) =>
    ward.admit({ family: name, given: 'Isolde', bed, inside, items: items(), mostInsideMl: 2800 });
  patients.prepare = await admit('PELLOW', '1');
  for (const [name, bed, upTo, options] of [
    ['connect', '2', 'preparing', {}],
    ['drain', '3', 'draining', { minutesAgo: { prepare: 30, startDrain: 12 } }],
    ['slow drain', '4', 'draining', { minutesAgo: { prepare: 60, startDrain: 40 } }],
    ['reading', '5', 'drained', {}],
    ['fill ready', '6', 'read', {}],
    ['guard', '7', 'read', { readingMl: 800 }],
    ['fill', '8', 'filling', { minutesAgo: { startFill: 6 } }],
    ['close', '9', 'closing', {}],
    ['finish', '10', 'closed', {}],
    ['finish, cloudy', '11', 'closed', { appearance: ['cloudy'] }],
  ] as const) {
    const id = await admit(`ASHBY${name.toUpperCase().replace(/\W/g, '')}`, bed);
    await carryTo(ward, id, upTo, options);
    patients[name] = id;
  }
  const nurse = await ward.as('lindahl');
  const about = { patientId: patients.finish ?? '' };
  await nurse.record(draft('weight', { weightKg: 69.9, cavity: 'full' }, about));
  await nurse.record(draft('bloodPressure', { systolicMmHg: 138, diastolicMmHg: 82, position: 'sitting' }, about));
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

const signIn = async (login: string) => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login);
};

/** Controls with a side under 48 px; what is only for screen readers, or part of a larger label, does not count. */
const smallTargets = (): Promise<readonly string[]> =>
  page.evaluate(`[...document.querySelectorAll('main button, nav button, main a, main summary, main select, main label:has(input)')]
    .filter((element) => !element.closest('dialog'))
    .map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ element, box }) => box.width > 0 && (box.height < 47.5 || box.width < 47.5) && getComputedStyle(element).display !== 'inline')
    .map(({ element, box }) => element.innerText.trim() + ' ' + Math.round(box.width) + ' × ' + Math.round(box.height))`);

/** Asks axe of each page in its themes: a page is loaded once, since a theme changes without a reload. */
async function expectEachAccessible(paths: readonly string[]) {
  for (const path of paths) {
    await page.goto(ward.origin + path);
    await page.locator('main').waitFor();
    await expectAccessibleIn(themesByTurns(), page);
  }
}

describe('in every theme', { timeout: 180_000 }, () => {
  it('every block of the bedside meets WCAG 2.2 A and AA', async () => {
    await page.setViewportSize(SIZES[0]);
    await signIn('lindahl');
    await expectEachAccessible(Object.values(patients).map((id) => `/patients/${id}/bedside`));
  });

  it('record, observations, prescription, rounds and admission meet WCAG 2.2 A and AA', async () => {
    await page.setViewportSize(SIZES[0]);
    await signIn('adair');
    const of = `/patients/${patients.finish}`;
    const screens = ['record', 'record?missed', 'observations', 'prescription', 'rounds'].map((one) => `${of}/${one}`);
    await expectEachAccessible([...screens, `/ward/${WARD}/admit`]);
  });
});

/** What each block is there for; of `prepare` it comes once a bag is chosen. */
const MAIN_ACTION = /^(Connected|Stopped: clear|Keep|Seal broken|Drain again|All 2,000|Closed|Finish)/;

it('every block fits its screen at every size: no wider, no target under 48 px, its main action in sight', async () => {
  await useTheme(page, 'light');
  await signIn('lindahl');
  for (const [name, id] of Object.entries(patients)) {
    await page.goto(`${ward.origin}/patients/${id}/bedside`);
    const action = page.locator('main').getByRole('button', { name: MAIN_ACTION }).first();
    if (name !== 'prepare') await action.waitFor();
    for (const size of SIZES) {
      await page.setViewportSize(size);
      const box = name === 'prepare' ? null : await action.boundingBox();
      expect({
        name,
        size,
        wider: await widerThanPage(page),
        small: await smallTargets(),
        inSight: name === 'prepare' || (box !== null && box.y >= 0 && box.y + box.height <= size.height + 1),
      }).toEqual({ name, size, wider: 0, small: [], inSight: true });
    }
  }
}, 180_000);
