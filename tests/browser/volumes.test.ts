import { mkdirSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { carryTo } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo } from './bedside-ward.ts';
import { openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];

beforeAll(async () => {
  ward = await openBoardWard();
  page = await ward.context.newPage();
  trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'lindahl');
});
afterAll(async () => {
  await page.close();
  await ward.close();
});

const admit = (family: string, bed: string, solutionId = 'glucose-2.27') =>
  ward.admit({
    family,
    given: 'Isolde',
    bed,
    inside: filledHoursAgo(4.5),
    items: [byLength(solutionId, 2000, 270)],
    mostInsideMl: 4000,
  });

/** A picture for whoever looks: only where a folder for it is named. */
const picture = async (name: string) => {
  const folder = process.env.PICTURES;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true });
};

it('a slow drain has its moves in the ward’s order, what each did, and what poor flow points to', async () => {
  const id = await admit('ASHBY', '1');
  await carryTo(ward, id, 'draining', { minutesAgo: { prepare: 60, startDrain: 40 } });
  await page.goto(`${ward.origin}/patients/${id}/bedside`);
  const moves = page.getByRole('group', { name: 'First moves tried' }).getByRole('checkbox');
  await moves.first().waitFor();
  // Position first, then clamps and kinks, bag height, bowels, fibrin: common practice.
  await page.getByText('Turned on the side', { exact: true }).first().click();
  const effect = page.getByRole('group', { name: 'Turned on the side: what it did' });
  await effect.getByText('it runs again').click();
  await page.getByText(/Poor both ways: clot or kink|only the outflow is poor|poor both ways/).waitFor();
  const nurse = await ward.as('lindahl');
  await expect
    .poll(async () => {
      const { state } = await nurse.get<{ state: { visit: { flowEffects: unknown[] } } }>(
        `/api/patients/${id}/bedside`,
      );
      return state.visit.flowEffects;
    })
    .toEqual([{ drain: 1, move: 'turnedOnSide', effect: 'runsAgain' }]);
  await picture('slow-drain');
});

it('the guard leads to how both figures came about, dwell by dwell', async () => {
  const id = await admit('PELLOW', '2');
  await carryTo(ward, id, 'read', { readingMl: 800 });
  await page.goto(`${ward.origin}/patients/${id}/bedside`);
  await page.getByRole('link', { name: 'How the figures came about, dwell by dwell' }).click();
  const row = page.getByRole('row').nth(1);
  await row.waitFor();
  const text = await row.innerText();
  expect(text).toContain('2,000 mL');
  expect(text).toContain('800 mL');
  await picture('inside');
  // By the book: residual + filled + expected − drained (computed from the stated rule), with U as the row prints it.
  const figure = (pattern: RegExp) => Number(pattern.exec(text)?.[1]?.replace(',', ''));
  const ufMl = figure(/(\d+) mL drawn/);
  expect(figure(/800 mL\s+([\d,]+) mL/)).toBe(200 + 2000 + ufMl - 800);
  await page.getByText(/Reckoned since .* by what was said at admission/).waitFor();
});

it('a strong bag with an old blood pressure is asked about, and goes on once one is measured', async () => {
  const id = await admit('TREGENZA', '3', 'glucose-3.86');
  const nurse = await ward.as('lindahl');
  // The screen counts from the last full minute.
  const twoHoursAgo = Date.now() - 122 * 60_000;
  const old = { systolicMmHg: 138, diastolicMmHg: 82, position: null };
  await nurse.record(draft('bloodPressure', old, { patientId: id, happenedAt: twoHoursAgo }));
  await page.goto(`${ward.origin}/patients/${id}/bedside`);
  await page
    .getByRole('button', { name: /^4\.25 %,\s*2,000/ })
    .first()
    .click();
  const first = page.getByRole('region', { name: 'Call first' });
  await first.getByText(/The blood pressure is 2 h 0[12] min old/).waitFor();
  expect(await page.getByRole('button', { name: /All six are right/ }).innerText()).toContain('call first');
  await picture('strong-bag');
  await first.getByLabel('Systolic now').fill('131');
  await first.getByLabel('Diastolic now').fill('78');
  await first.getByRole('button', { name: 'Keep this blood pressure' }).click();
  await first.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: /All six are right/ }).click();
  await expect
    .poll(async () => {
      const { state } = await nurse.get<{ state: { visit: { state: string } | null } }>(`/api/patients/${id}/bedside`);
      return state.visit?.state;
    })
    .toBe('preparing');
  expect(trouble).toEqual([]);
});
