import type { EntryPage } from '@slackwater/contract';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { bedsideOf, carryTo } from './bedside-steps.ts';
import { byLength, filledHoursAgo } from './bedside-ward.ts';
import { openBoardWard, signInAs, troubleOf, useTheme } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];
let bed = 0;

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

const patient = async (hours = 6): Promise<string> => {
  bed += 1;
  const id = await ward.admit({
    family: `NAKASHIMA${'ABCDEFGHIJ'[bed]}`,
    given: 'Ren',
    bed: String(bed),
    inside: filledHoursAgo(hours),
    items: [byLength('glucose-2.27', 2000, 270)],
  });
  return id;
};

const open = async (patientId: string, login: string, tail = 'record') => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login, `/patients/${patientId}/${tail}`);
};
/** With fluid inside nobody leaves before somebody with a name was told of it. */
const told = async (action: string) => {
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Told to, by name').fill('Nadia Marsh');
  await dialog.getByRole('checkbox', { name: /^Volume, strength and time were told/ }).check();
  await dialog.getByRole('button', { name: action }).click();
};
const entriesOf = async (id: string) =>
  (await (await ward.as('lindahl')).get<EntryPage>(`/api/patients/${id}/entries?limit=100`)).entries;

describe('the record', () => {
  it('corrects a volume: what it changes is said before, the original stays readable after', async () => {
    const id = await patient();
    await carryTo(ward, id, 'closed', { readingMl: 2180 });
    await open(id, 'lindahl');
    await page.getByRole('button', { name: /^Correct ?: Drained 2,180 mL/ }).click();
    await page.getByText('Digits exchanged').click();
    await page.getByLabel('Corrected: Volume').fill('2810');
    await page.getByLabel('In words').fill('read again on the bag');
    // By hand: 2,180 − 2,000 = 180; 2,810 − 2,000 = 810.
    const change = page.getByRole('row', { name: /Drain minus fill of that dwell/ });
    await expect.poll(() => change.innerText()).toMatch(/Removed 180 mL\s+Removed 810 mL/);
    await page.getByRole('button', { name: /^Correct and sign as Lindahl/ }).click();
    await page.getByText('Original: Drained 2,180 mL').waitFor();
    await page.getByText('“Digits exchanged: read again on the bag”').waitFor();
    expect((await bedsideOf(ward, id)).state.lastDwells[0]?.drainMinusFillMl).toBe(810);
  });

  it('retracts what never happened: struck through, readable, counted nowhere', async () => {
    const id = await patient();
    await carryTo(ward, id, 'read');
    await open(id, 'lindahl');
    await page.getByRole('button', { name: /^Correct ?: Drained 2,050 mL/ }).click();
    await page.getByText('It never happened').click();
    await page.getByLabel('In words').fill('typed at the wrong bed');
    await page.getByRole('button', { name: /^Retract and sign/ }).click();
    await page.getByText('retracted', { exact: true }).waitFor();
    expect((await bedsideOf(ward, id)).state.visit?.drains[0]?.readingMl).toBeNull();
  });

  it('lets a nurse correct her own entries, a charge nurse any, and says why not', async () => {
    const id = await patient();
    await carryTo(ward, id, 'draining', { as: 'okoro' });
    await open(id, 'lindahl');
    const correct = page.getByRole('button', { name: /^Correct ?: Drain started/ });
    await correct.waitFor();
    expect(await correct.getAttribute('aria-disabled')).toBe('true');
    expect(await correct.innerText()).toContain('charge nurse or physician');
    await open(id, 'adair');
    await page.getByRole('button', { name: /^Correct ?: Drain started/ }).click();
    await page.getByRole('heading', { name: /^Correct: Drain started/ }).waitFor();
  });

  const zone = new Intl.DateTimeFormat('sv-SE', { timeZone: 'Europe/London', dateStyle: 'short', timeStyle: 'short' });
  const typeAt = async (label: string, at: number) => {
    const [date = '', clock = ''] = zone.format(at).split(' ');
    const field = page.getByRole('group', { name: label });
    await field.getByLabel('Date').fill(date);
    await field.getByLabel('Time').fill(clock);
  };
  const choose = (group: string, label: string | RegExp) =>
    page.getByRole('group', { name: group, exact: true }).getByText(label, { exact: true }).click();

  it('takes a whole missed exchange into the gap before one that is recorded', async () => {
    const id = await patient(12);
    await carryTo(ward, id, 'closed');
    await open(id, 'lindahl', 'record?missed');
    const begin = Date.now() - 7 * HOUR_MS;
    await typeAt('Drain started', begin);
    await typeAt('Drain ended', begin + 15 * MINUTE_MS);
    await page.getByLabel('Drained, without flush').fill('2100');
    const enter = page.getByRole('button', { name: /^Enter it/ });
    // Nothing is stated for her: neither how it looked nor that anything was checked.
    for (const word of [
      'how it was measured',
      'the appearance',
      'how the flow ended',
      'whether the patient was checked',
      'how the patient felt',
    ])
      expect(await enter.innerText()).toContain(word);
    await page.getByText('Measuring jug', { exact: true }).click();
    await page.getByText('Clear: print readable through the bag').click();
    await page.getByText('It ran to a stop').click();
    await page.getByRole('checkbox', { name: 'The drain bag was discarded' }).check();
    await choose('The patient', /^Name and birth date were held/);
    await choose('How the patient felt', /^Comfortable/);
    await typeAt('Fill started', begin + 20 * MINUTE_MS);
    await typeAt('Fill ended', begin + 30 * MINUTE_MS);
    await page.getByText('2,000 mL of 2.5 %, 4 h 30 min').click();
    // Another fluid than prescribed needs the reason and the physician, afterwards too.
    await choose('What ran in', '1.5 %');
    await page.getByLabel('Why another fluid').fill('2.5 % was out of stock');
    await page.getByLabel('Physician who said so').fill('Dr Imre Solberg');
    await page.getByRole('textbox', { name: 'Went in' }).fill('2000');
    expect(await enter.innerText()).toContain('whether the bag was checked');
    await choose('The bag', /^Checked: in date/);
    await choose('Before it ran', /^Outlet seal broken/);
    expect(await enter.innerText()).toContain('the flush');
    await page.getByLabel('Flushed into the drain bag').fill('100');
    await page.getByRole('button', { name: 'Enter it: drained 2,100 mL' }).click();
    await expect
      .poll(async () => (await bedsideOf(ward, id)).state.lastDwells.map((dwell) => dwell.drainedMl))
      .toEqual([2050, 2100]);
    // By hand: the later dwell now began at the missed fill, 2,000 mL of 1.5 %.
    const { state } = await bedsideOf(ward, id);
    expect(state.lastDwells[0]?.fills[0]).toMatchObject({ solutionId: 'glucose-1.36', filledMl: 2000 });
    expect((await entriesOf(id)).filter((entry) => entry.kind === 'prepare')).toHaveLength(2);
  });

  it('takes a missed exchange that nobody watched: each thing is said to be unknown, and none is chosen before', async () => {
    const id = await patient(12);
    await open(id, 'lindahl', 'record?missed');
    const begin = Date.now() - 7 * HOUR_MS;
    await typeAt('Drain started', begin);
    await typeAt('Drain ended', begin + 15 * MINUTE_MS);
    await typeAt('Fill started', begin + 20 * MINUTE_MS);
    await typeAt('Fill ended', begin + 30 * MINUTE_MS);
    expect(await page.getByRole('radio', { name: 'Nobody watched', checked: true }).count()).toBe(0);
    await page.getByText('2,000 mL of 2.5 %, 4 h 30 min').click();
    for (const group of ['The patient', 'How the flow ended', 'The bag', 'Before it ran', 'How the patient felt'])
      await choose(group, 'Nobody watched');
    for (const unknown of [
      /^Drained volume not known/,
      /^Nobody watched how it looked/,
      /^Flush not known/,
      /^Filled vol/,
    ])
      await page.getByRole('checkbox', { name: unknown }).check();
    await page.getByRole('button', { name: /^Enter it/ }).click();
    await expect.poll(async () => (await entriesOf(id)).some((entry) => entry.kind === 'close')).toBe(true);
    const said = async <K extends string>(kind: K) =>
      (await entriesOf(id)).find((entry) => entry.kind === kind)?.payload;
    expect(await said('prepare')).toMatchObject({ identifiers: null, afterwards: true });
    expect(await said('startFill')).toMatchObject({ flushMl: null, sealBroken: null, noLeak: null });
    expect(await said('comfort')).toEqual({ phase: 'drain', comfort: null });
    const { state } = await bedsideOf(ward, id);
    expect(state.lastDwells[0]?.drains[0]).toMatchObject({ appearance: [], flow: null, drainedMl: null });
    expect(state.inside).toMatchObject({ flowMl: null, bookMl: null });
    await page.getByText('Nobody watched the effluent', { exact: true }).waitFor();
    await page.getByText('nobody watched: patient, bag').waitFor();
    await page.getByText('nobody watched: outlet seal, leak, flush').waitFor();
  });
});

describe('observations and the stay', () => {
  it('keeps weight, blood pressure and urine, and answers a decimal comma with what to write', async () => {
    const id = await patient();
    await open(id, 'lindahl', 'observations');
    const weight = page.getByRole('region', { name: 'Weight' });
    await weight.getByLabel('Weight').fill('69,9');
    await weight.getByText('“69,9”: write 69.9.').waitFor();
    await weight.getByLabel('Weight').fill('69.9');
    await weight.getByText('Full', { exact: true }).click();
    await weight.getByRole('button', { name: 'Keep 69.9 kg' }).click();
    await weight.getByText(/69.9 kg full/).waitFor();
    const fluids = page.getByRole('region', { name: 'Other fluids' });
    await fluids.getByLabel('Volume').fill('350');
    await fluids.getByRole('button', { name: 'Keep 350 mL' }).click();
    await expect.poll(async () => (await bedsideOf(ward, id)).state.day.otherOutMl).toBe(350);
  });

  it('off the ward and back, with what is inside', async () => {
    const id = await patient();
    await open(id, 'lindahl', 'observations');
    await page.getByRole('region', { name: 'Leaves the ward' }).getByLabel('Where to').fill('echocardiography');
    await page.getByRole('button', { name: /^Off the ward/ }).click();
    await page.getByRole('button', { name: 'Back on the ward' }).click();
    await page.getByRole('region', { name: 'Leaves the ward' }).waitFor();
    expect((await bedsideOf(ward, id)).state.stay?.offWard).toBeNull();
  });

  it('a charge nurse moves a patient to a free bed, and home', async () => {
    const id = await patient();
    await open(id, 'adair', 'observations');
    const move = page.getByRole('region', { name: 'Another bed' });
    await move.getByLabel('Bed').fill('24');
    await move.getByRole('button', { name: 'Move to bed 24' }).click();
    await expect.poll(async () => (await bedsideOf(ward, id)).bed).toBe('24');
    const discharge = page.getByRole('region', { name: 'Discharge' });
    await discharge.getByLabel('Where to').fill('home');
    await discharge.getByRole('button', { name: 'Discharge' }).click();
    await told('Discharge');
    await expect.poll(async () => (await bedsideOf(ward, id)).state.stay).toBeNull();
  });

  it('a transfer leaves here and arrives there at once, with the fluid inside', async () => {
    const id = await patient();
    await open(id, 'adair', 'observations');
    const transfer = page.getByRole('region', { name: 'Transfer to another ward' });
    await transfer.getByLabel(/^Ward/).selectOption('plover');
    await transfer.getByLabel('Bed there').selectOption('3');
    await transfer.getByRole('button', { name: 'Transfer' }).click();
    await told('Transfer');
    await page.waitForURL(`${ward.origin}/ward/kestrel`);
    const { rows } = await ward.app.pool.query<{ ward_id: string; bed: string; content: { cavity: unknown } }>(
      'SELECT ward_id, bed FROM stay WHERE patient_id = $1 AND to_at IS NULL',
      [id],
    );
    expect(rows).toEqual([{ ward_id: 'plover', bed: '3' }]);
  });
});
