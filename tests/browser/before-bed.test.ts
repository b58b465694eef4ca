/// <reference lib="dom" />
import type { BoardSnapshot } from '@slackwater/contract';
import { MINUTE_MS } from '@slackwater/domain';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { bedsideOf, carryTo, chained } from './bedside-steps.ts';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import {
  accessFaults,
  assign,
  eventually,
  expectAccessibleIn,
  openBoardWard,
  SIZES,
  signInAs,
  themesByTurns,
  troubleOf,
  useTheme,
  wordsIn,
} from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
let trouble: string[];

beforeAll(async () => {
  ward = await openBoardWard();
  // Adair is charge nurse of Plover Ward too: she sees both ends of a transfer.
  await ward.app.pool.query(
    `INSERT INTO account_role SELECT 'alder-point', id, 'plover', 'chargeNurse' FROM account WHERE login = 'adair'`,
  );
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

const open = async (login: string, path?: string) => {
  await page.goto('about:blank');
  await ward.context.clearCookies();
  await signInAs(page, ward.origin, login, path);
};
const row = (bed: string) => page.locator(`li[data-bed="${bed}"]`);

/** The dialog fits and meets WCAG 2.2 AA in its themes on desk, tablets and phone. */
const looksRight = async (dialog: Locator) => {
  await expectAccessibleIn(themesByTurns(), page);
  for (const { width, height } of SIZES) {
    await page.setViewportSize({ width, height });
    const { right, left } = await dialog.evaluate((element) => element.getBoundingClientRect());
    expect([left >= 0, right <= width], `at ${width}`).toEqual([true, true]);
    expect(await dialog.evaluate((element) => element.scrollWidth - element.clientWidth), `at ${width}`).toBe(0);
  }
  await page.setViewportSize({ width: 1024, height: 768 });
};

/** Types an instant as the ward's people do. */
const typeInstant = async (within: Locator, label: string, at: number) => {
  const local = new Intl.DateTimeFormat('sv-SE', { timeZone: 'Europe/London', dateStyle: 'short', timeStyle: 'short' });
  const [date = '', clock = ''] = local.format(at).split(' ');
  const group = within.getByRole('group', { name: label });
  await group.getByLabel('Date').fill(date);
  await group.getByLabel('Time').fill(clock);
  return clock;
};

describe('who can move', () => {
  let first: string;

  beforeAll(async () => {
    // Both filled twenty minutes ago for four hours, both one nurse's: their drains fall together.
    for (const [family, bed] of [
      ['AVELLANEDA', '1'],
      ['BRISTOWE', '2'],
    ] as const) {
      const items = [byLength('glucose-1.36', 2000, 240)];
      const id = await ward.admit({ family, given: 'Mavis', bed, inside: filledHoursAgo(6), items });
      await carryTo(ward, id, 'closed');
      await assign(ward, id, 'Lindahl');
      first ??= id;
    }
  });

  const openDialog = async () => {
    await page.getByRole('button', { name: /^Who can move/ }).click();
    const dialog = page.getByRole('dialog', { name: 'Who can go first, or later' });
    await dialog.waitFor();
    return dialog;
  };

  it('is said with the window it lies in, and what collides for whom', async () => {
    await open('lindahl');
    const dialog = await openDialog();
    const words = (await dialog.innerText()).replace(/\s+/g, ' ');
    expect(words).toMatch(/\d\d:\d\d beds 1, 2 fall together for Lindahl\./);
    expect(words).toMatch(/Bed [12] may go at \d\d:\d\d, (\d+) min (early|late), within its window\./);
    expect(words).toContain('Nothing is moved without an order.');
    await looksRight(dialog);
  });

  it('a nurse does not move a drain: she goes to the order by telephone', async () => {
    await open('lindahl');
    const dialog = await openDialog();
    expect(await dialog.getByRole('button', { name: /^Order/ }).count()).toBe(0);
    await dialog.getByRole('link', { name: 'Order by telephone' }).first().click();
    await page.waitForURL(/\/patients\/[0-9a-f-]+\/prescription$/);
    await page.getByRole('button', { name: 'Order by telephone' }).waitFor();
  });

  it('what the server refuses is said beside the proposal, and nothing is moved', async () => {
    await open('solberg');
    const dialog = await openDialog();
    // Meanwhile the physician's role on this ward was taken back.
    const become = (role: string) =>
      ward.app.pool.query(
        `UPDATE account_role SET role = $1 WHERE ward_id = $2
         AND account_id = (SELECT id FROM account WHERE login = 'solberg')`,
        [role, WARD],
      );
    await become('nurse');
    try {
      await dialog.getByRole('button', { name: /^Order \d\d:\d\d/ }).click();
      await dialog.getByRole('alert').waitFor();
      expect(await dialog.getByRole('alert').innerText()).toBe('Your role on this ward (nurse) does not allow this.');
      expect((await bedsideOf(ward, first)).state.orders).toEqual([]);
    } finally {
      await become('nephrologist');
    }
    // The browser itself notes a refused request, and nothing else was wrong.
    expect(trouble.splice(0)).toEqual([expect.stringContaining('403')]);
  });

  it('a physician orders it in one touch, and the board has the drain at the new time', async () => {
    await open('solberg');
    const dialog = await openDialog();
    const order = dialog.getByRole('button', { name: /^Order \d\d:\d\d/ });
    const time = /\d\d:\d\d/.exec(await order.innerText())?.[0] ?? 'none';
    const bed = /Bed ([12]) may/.exec(await dialog.innerText())?.[1] ?? 'none';
    await order.click();
    await eventually(() => wordsIn(row(bed))).toContain(time);
    await eventually(() => page.getByRole('button', { name: /^Who can move/ }).count()).toBe(0);
  });
});

describe('the bags to warm', () => {
  it('say which is not certain and why, and where none is to be warmed', async () => {
    const condition = 'over 72 kg → 2.5 %';
    const soon = [{ ...byLength('glucose-1.36', 2000, 240), condition }];
    await ward.admit({ family: 'CALLOWAY', given: 'Ines', bed: '3', inside: filledHoursAgo(3), items: soon });
    const held = await ward.admit({
      family: 'DRUMMOND',
      given: 'Owen',
      bed: '4',
      inside: filledHoursAgo(3),
      items: [byLength('glucose-1.36', 2000, 240)],
    });
    const reviewBy = Date.now() + 600 * MINUTE_MS;
    await (await ward.as('solberg')).record(draft('held', { reason: 'leak', reviewBy }, { patientId: held }));
    await open('lindahl');
    const warm = page.getByRole('button', { name: /^Warm by \d\d:\d\d/ });
    await eventually(() => warm.innerText()).toContain('1 not certain');
    await warm.click();
    const dialog = page.getByRole('dialog', { name: /^Bags to warm by/ });
    const words = (await dialog.innerText()).replace(/\s+/g, ' ');
    expect(words).toMatch(/\d\d:\d\d 3 2,000 mL 1\.5 % Not certain as prescribed: “over 72 kg → 2\.5 %”/);
    expect(words).toMatch(/No bag after the drain \d\d:\d\d Bed 4: fills are on hold, review by \d\d:\d\d/);
    await looksRight(dialog);
  });
});

describe('theatre or imaging', () => {
  let id: string;

  beforeAll(async () => {
    const items = [byLength('glucose-1.36', 2000, 600)];
    id = await ward.admit({ family: 'ELLERKER', given: 'Rose', bed: '5', inside: filledHoursAgo(2), items });
  });

  it('is one form: bad times are refused at their field, the order by telephone is read back', async () => {
    await open('lindahl', `/patients/${id}/prescription`);
    await page.getByRole('button', { name: 'Theatre or imaging' }).click();
    const dialog = page.getByRole('dialog', { name: 'Theatre or imaging, by telephone' });
    await dialog.getByLabel('Where to').fill('imaging');
    await dialog.getByLabel('What for').fill('catheter tip');
    const now = Date.now();
    const give = dialog.getByRole('button', { name: /^Give the order/ });
    expect(await give.innerText()).toContain('missing: drain by, leaves at, expected back');
    const leaves = await typeInstant(dialog, 'Leaves at', now + 90 * MINUTE_MS);
    await typeInstant(dialog, 'Drain by', now + 100 * MINUTE_MS);
    await typeInstant(dialog, 'Expected back at', now + 80 * MINUTE_MS);
    await dialog.getByText(`is too late; allowed is up to ${leaves}, when the patient leaves.`).waitFor();
    await dialog.getByText(`is too early; allowed is after ${leaves}, when the patient leaves.`).waitFor();
    await typeInstant(dialog, 'Drain by', now - 60 * MINUTE_MS);
    await dialog.getByText(/is not possible; allowed is from when it is given to \d+ h later\./).waitFor();
    const drainBy = await typeInstant(dialog, 'Drain by', now + 60 * MINUTE_MS);
    const back = await typeInstant(dialog, 'Expected back at', now + 200 * MINUTE_MS);
    await dialog.getByText(`Empty by ${drainBy}: imaging ${leaves}`).waitFor();
    await looksRight(dialog);
    await dialog.getByLabel('Physician who gave it').fill('Dr Imre Solberg');
    expect(await give.innerText()).toContain('the read-back');
    await dialog
      .getByRole('checkbox', {
        name: `Read back: “Drain by ${drainBy} and stay empty until ${back}: imaging at ${leaves}, back about ${back} (catheter tip)”`,
      })
      .check();
    await give.click();
    await dialog.waitFor({ state: 'detached' });
    const { state } = await bedsideOf(ward, id);
    expect(state.orders).toMatchObject([{ content: { what: 'drainAndStayEmpty', away: { where: 'imaging' } } }]);
    expect(state.due).toMatchObject({ what: 'drain', rule: 'order' });

    await page.goto(`${ward.origin}/ward/${WARD}`);
    await eventually(() => wordsIn(row('5'))).toContain(`Empty by ${drainBy}: imaging ${leaves}`);
    await page.goto(`${ward.origin}/patients/${id}/bedside`);
    await page.getByText(`Empty by ${drainBy}: imaging ${leaves}`).first().waitFor();
  });

  it('leaves by one touch with what the order says; back, the next fill is named and the order ends', async () => {
    const minutesAgo = { prepare: 40, startDrain: 30, endDrain: 15 };
    await carryTo(ward, id, 'read', { purpose: 'drainOnly', minutesAgo });
    const { state } = await bedsideOf(ward, id);
    const close = draft('close', { leftEmpty: true }, { patientId: id, visitId: state.visit?.id ?? null });
    await (await ward.as('lindahl')).record(...chained([close], state.head));

    await open('lindahl', `/patients/${id}/observations`);
    const leaves = page.getByRole('region', { name: 'Leaves the ward' });
    await leaves.getByText(/^Stays empty until \d\d:\d\d: imaging/).waitFor();
    await leaves.getByRole('button', { name: 'Off the ward: imaging' }).click();
    const away = page.getByRole('region', { name: 'Off the ward' });
    await away.getByText(/^fill of 2,000 mL 1\.5 %, due \d\d:\d\d$/).waitFor();
    const left = (await bedsideOf(ward, id)).state;
    expect(left.stay?.offWard).toMatchObject({ where: 'imaging', backAbout: expect.any(Number) });
    expect(await accessFaults(page)).toEqual([]);

    await away.getByRole('button', { name: 'Back: the order to stay empty ends' }).click();
    await leaves.waitFor();
    const { state: back } = await bedsideOf(ward, id);
    expect(back).toMatchObject({ stay: { offWard: null }, orders: [], due: { what: 'fill', rule: 'afterDrain' } });
    // Owed from the return on, not from the drain half an hour ago.
    expect(back.due!.dueAt).toBeGreaterThan(Date.now());
  });
});

describe('hours that are ordered empty', () => {
  let id: string;

  beforeAll(async () => {
    const item = { ...byLength('glucose-1.36', 2000, 600), condition: 'over 72 kg → 2.5 %' };
    id = await ward.admit({ family: 'KILBRIDE', given: 'Una', bed: '9', inside: filledHoursAgo(2), items: [item] });
    const [now, minute] = [Date.now(), MINUTE_MS];
    const away = { where: 'theatre', why: 'hernia', leavesAt: now + 40 * minute, backAt: now + 200 * minute };
    const content = { what: 'drainAndStayEmpty', drainBy: now + 20 * minute, emptyUntil: away.backAt, away } as const;
    await (await ward.as('solberg')).record(
      draft('ordered', { content, note: null, telephone: null }, { patientId: id }),
    );
  });

  it('close the way to a fill before a bag is opened; a nurse takes an order, a charge nurse goes on with a reason', async () => {
    await open('lindahl', `/patients/${id}/bedside`);
    await page.getByText('Drain and fill', { exact: true }).click();
    const stop = page.getByRole('alert').filter({ hasText: /^Stays empty until \d\d:\d\d: theatre/ });
    await stop.waitFor();
    expect(await page.getByRole('button', { name: /^2\.5 %/ }).count()).toBe(0);
    const allTheSame = page.getByRole('button', { name: /^Fill all the same/ });
    expect(await allTheSame.getAttribute('aria-disabled')).toBe('true');
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole('button', { name: /^An order allows this fill/ }).click();
    const order = page.getByRole('dialog', { name: /^Order by telephone: 2,000 mL of 1\.5 %/ });
    expect(await order.getByLabel('In words').inputValue()).toMatch(/^Although ordered before: stays empty until/);
    await order.getByRole('button', { name: 'Back', exact: true }).click();

    await open('adair', `/patients/${id}/bedside`);
    await page.getByText('Drain and fill', { exact: true }).click();
    await allTheSame.click();
    const dialog = page.getByRole('dialog', { name: /^Fill all the same\?/ });
    const sign = dialog.getByRole('button', { name: /^Sign as Rowan Adair/ });
    expect(await sign.innerText()).toContain('the reason is missing');
    await looksRight(dialog);
    await dialog.getByLabel('Reason, in words').fill('theatre puts it off to tomorrow');
    await sign.click();
    await page
      .getByRole('note')
      .filter({ hasText: 'Going on all the same. “theatre puts it off to tomorrow”' })
      .waitFor();
    // The choice left to the bedside stands beside the bag; a weight that nobody took is said as missing.
    const condition = page.getByRole('note').filter({ hasText: 'The prescription says: “over 72 kg → 2.5 %”.' });
    expect(await condition.innerText()).toContain('No weight is recorded.');
    const weight = draft('weight', { weightKg: 71.4, cavity: 'full' }, { patientId: id });
    await (await ward.as('lindahl')).record(weight);
    await eventually(() => condition.innerText()).toMatch(
      /Newest weight: 71\.4 kg, cavity full, (today|\d\d-\w+-\d{4}) \d\d:\d\d\./,
    );
    await page.getByRole('button', { name: /^1\.5 %, ?2,000/ }).click();
    await condition.waitFor();
    await page.getByRole('button', { name: /go to connect/ }).click();
    await page.getByRole('button', { name: /^Connected/ }).waitFor();
    const { state } = await bedsideOf(ward, id);
    expect(state.visit?.despiteOrderId).toBe(state.orders[0]?.id);
    expect((await page.getByRole('main').innerText()).replace(/\s+/g, ' ')).toMatch(
      /By order Stays empty until .* going on all the same/,
    );
    await page.goto(`${ward.origin}/patients/${id}/record`);
    await page.getByText(/although ordered to stay empty: theatre puts it off to tomorrow/).waitFor();
  });

  it('are no hours to leave with fluid inside in silence: the form shows it and asks why', async () => {
    await open('lindahl', `/patients/${id}/observations`);
    const leaves = page.getByRole('region', { name: 'Leaves the ward' });
    const off = leaves.getByRole('button', { name: /^With fluid inside, off the ward: theatre/ });
    expect(await off.innerText()).toContain('why not drained?');
    const words = (await leaves.innerText()).replace(/\s+/g, ' ');
    expect(words).toContain('Not drained: the order is to leave empty');
    expect(words).toMatch(/2,000 mL of 1\.5 % dextrose \(1\.36 % glucose\), in at \d\d:\d\d/);
    expect(await accessFaults(page)).toEqual([]);
    await leaves.getByLabel('Leaves with this inside: why').fill('called early, theatre was told');
    await off.click();
    await page.getByRole('region', { name: 'Off the ward' }).waitFor();
    await page.goto(`${ward.origin}/patients/${id}/record`);
    await page
      .getByText(/with fluid inside, although ordered drained before: called early, theatre was told/)
      .waitFor();
  });

  it('that came after the bag was prepared stop the fill: a nurse closes without, a physician goes on with a reason', async () => {
    const items = [byLength('glucose-1.36', 2000, 240)];
    const other = await ward.admit({ family: 'LOXLEY', given: 'Iris', bed: '10', inside: filledHoursAgo(4.5), items });
    await carryTo(ward, other, 'read', { readingMl: 2050 });
    const [now, minute] = [Date.now(), MINUTE_MS];
    const content = { what: 'drainAndStayEmpty', drainBy: now + 5 * minute, emptyUntil: now + 120 * minute } as const;
    const order = draft('ordered', { content, note: null, telephone: null }, { patientId: other });
    await (await ward.as('solberg')).record(order);
    const button = (name: RegExp | string) => page.getByRole('button', { name });
    await open('lindahl', `/patients/${other}/bedside`);
    await page.getByRole('heading', { name: 'Drained: no fill now' }).waitFor();
    await page
      .getByRole('alert')
      .filter({ hasText: /^Stays empty until/ })
      .waitFor();
    expect(await button(/^Fill all the same/).getAttribute('aria-disabled')).toBe('true');
    await button('Close without fill').waitFor();

    await open('solberg', `/patients/${other}/bedside`);
    await page.getByText('The steps of an exchange are recorded by nurses.').waitFor();
    await button(/^Fill all the same/).click();
    await page.getByRole('dialog').getByLabel('Reason, in words').fill('the scan is put off');
    await button(/^Sign as Dr Imre Solberg/).click();
    await page.getByRole('note').filter({ hasText: 'Going on all the same. “the scan is put off”' }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await button(/fill has started/).click();
    await page.getByRole('heading', { name: 'It runs in' }).waitFor();
    expect((await bedsideOf(ward, other)).state.visit?.fill).toMatchObject({
      despiteOrder: { orderId: order.id, reason: 'the scan is put off', physician: null },
    });
  });
});

describe('a patient who leaves with fluid inside', () => {
  it('is discharged once somebody with a name was told; what is not known is said so; it can be printed', async () => {
    const inside = { cavity: 'holding', solutionId: 'glucose-2.27', filledMl: null, fillEndedAt: null } as const;
    const id = await ward.admit({ family: 'FAIRBAIRN', given: 'Hugh', bed: '6', inside });
    await open('adair', `/patients/${id}/observations`);
    const card = page.getByRole('region', { name: 'Discharge' });
    await card.getByLabel('Where to').fill('home');
    await card.getByRole('button', { name: 'Discharge' }).click();
    const dialog = page.getByRole('dialog', { name: 'Discharge to home' });
    const words = (await dialog.innerText()).replace(/\s+/g, ' ');
    expect(words).toContain('volume unknown of 2.5 % dextrose (2.27 % glucose), time of the fill unknown');
    expect(words).toContain('not known');
    expect(words).not.toMatch(/\b0 mL/);
    const discharge = dialog.getByRole('button', { name: /^Discharge/ });
    expect(await discharge.innerText()).toContain('missing: who was told, that it was told');
    await looksRight(dialog);
    await dialog.getByLabel('Told to, by name').fill('Nadia Marsh, home nurse');
    expect(await discharge.innerText()).toContain('missing: that it was told');
    await dialog.getByRole('checkbox', { name: /^Volume, strength and time were told/ }).check();
    await discharge.click();
    await page.waitForURL(/\/handed-over$/);
    await page.getByText('Told to Nadia Marsh, home nurse by Rowan Adair.').waitFor();
    expect(await page.getByText(/^Changed in the record/).count()).toBe(0);
    expect(await page.getByRole('main').innerText()).toContain('volume unknown of 2.5 %');
    expect(await accessFaults(page)).toEqual([]);
    // On paper: the patient and what was told, and nothing to press.
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const ink = () => page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--paper'));
    const onPaper = await ink();
    await page.getByRole('heading', { name: /FAIRBAIRN, Hugh/ }).waitFor();
    expect(await page.getByRole('button').count()).toBe(0);
    expect(await page.getByRole('navigation').count()).toBe(0);
    await page.emulateMedia({ media: null, colorScheme: 'dark' });
    expect(await ink()).not.toBe(onPaper);
  });

  it('with something else in the record than was read out is asked anew', async () => {
    const items = [byLength('glucose-1.36', 2000, 600)];
    const id = await ward.admit({ family: 'GALBRAITH', given: 'Mona', bed: '7', inside: filledHoursAgo(2), items });
    await open('adair', `/patients/${id}/observations`);
    const card = page.getByRole('region', { name: 'Discharge' });
    await card.getByLabel('Where to').fill('home');
    await card.getByRole('button', { name: 'Discharge' }).click();
    const dialog = page.getByRole('dialog', { name: 'Discharge to home' });
    await dialog.getByLabel('Told to, by name').fill('Nadia Marsh');
    const tick = dialog.getByRole('checkbox', { name: /^Volume, strength and time were told/ });
    await tick.check();
    // Meanwhile the physician orders another time.
    const content = { what: 'dueAt', dueAt: Date.now() + 60 * MINUTE_MS } as const;
    const order = draft('ordered', { content, note: null, telephone: null }, { patientId: id });
    await (await ward.as('solberg')).record(order);
    await eventually(() => tick.isChecked()).toBe(false);
  });

  it('is received with it: the other ward’s board and bedside say who was told', async () => {
    const items = [byLength('glucose-1.36', 2000, 600)];
    const id = await ward.admit({ family: 'HALLORAN', given: 'Teig', bed: '8', inside: filledHoursAgo(2), items });
    await open('adair', `/patients/${id}/observations`);
    const card = page.getByRole('region', { name: 'Transfer to another ward' });
    await card.getByLabel(/^Ward/).selectOption('plover');
    await card.getByLabel('Bed there').selectOption('3');
    await card.getByRole('button', { name: 'Transfer' }).click();
    const dialog = page.getByRole('dialog', { name: 'To Plover Ward, bed 3' });
    expect((await dialog.innerText()).replace(/\s+/g, ' ')).toMatch(
      /2,000 mL of 1\.5 % dextrose \(1\.36 % glucose\), in at \d\d:\d\d/,
    );
    await dialog.getByLabel('Told to, by name').fill('Nadia Marsh');
    await dialog.getByRole('checkbox', { name: /^Volume, strength and time were told/ }).check();
    await dialog.getByRole('button', { name: 'Transfer' }).click();
    await page.waitForURL(`${ward.origin}/ward/${WARD}`);
    const charge = await ward.as('adair');
    await eventually(async () => (await charge.get<BoardSnapshot>('/api/wards/plover/board')).rows.length).toBe(1);
    await page.goto(`${ward.origin}/ward/plover`);
    await eventually(() => wordsIn(row('3'))).toMatch(/handed over \d\d:\d\d to Nadia Marsh/);
    await page.goto(`${ward.origin}/patients/${id}/bedside`);
    const panel = page.getByRole('complementary', { name: 'Beside it' });
    await eventually(() => panel.innerText()).toMatch(/Handed over \d\d:\d\d to Nadia Marsh/);
    expect((await panel.innerText()).replace(/\s+/g, ' ')).toMatch(/2,000 mL of 1\.5 %/);
    expect(await accessFaults(page)).toEqual([]);
  });
});
