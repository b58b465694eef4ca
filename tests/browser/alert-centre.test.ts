/// <reference lib="dom" />
// The alert centre beyond the life of one alert: sound, notices, what ended, what calls too often, every rule.
import type { WardView } from '@slackwater/contract';
import { ALERT_KINDS, ALERT_RULES, ALERT_TITLES, type OpenAlert, SETTINGS } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { byLength, draft, filledHoursAgo, WARD } from './bedside-ward.ts';
import { accessFaults, assign, eventually, openBoardWard, signInAs, troubleOf } from './board-page.ts';

let ward: Awaited<ReturnType<typeof openBoardWard>>;
let page: Page;
const patients: Record<string, string> = {};

/** Notes what the page really plays and shows; everything is passed on to the browser. */
function listenIn() {
  const heard = { started: 0, stopped: 0, notices: [] as string[], closed: 0 };
  Object.assign(window, { heard });
  const { start, stop } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (...args: []) {
    heard.started += 1;
    return start.apply(this, args);
  };
  AudioBufferSourceNode.prototype.stop = function (...args: []) {
    heard.stopped += 1;
    return stop.apply(this, args);
  };
  const { close } = Notification.prototype;
  Notification.prototype.close = function () {
    heard.closed += 1;
    return close.apply(this);
  };
  const Shown = Notification;
  window.Notification = new Proxy(Shown, {
    construct(target, [title, options]) {
      heard.notices.push(`${title}. ${options?.body ?? ''}`);
      return new target(title, options);
    },
    // A Chromium without a window has nobody to ask and denies what it was granted: here the person said yes.
    get: (target, key) => (key === 'permission' ? 'granted' : Reflect.get(target, key)),
  });
}
/**
 * A sound that waits for a press, as browsers make it in a page that nobody touched. The driver of this test counts as a
 * touch whenever it looks into a page, so here it is made to wait.
 */
function notYetAllowed() {
  window.AudioContext = class extends AudioContext {
    constructor() {
      super();
      void this.suspend();
    }
  };
}
type Heard = { started: number; stopped: number; notices: string[]; closed: number };
const heardIn = (where: Page) => where.evaluate(() => (window as unknown as { heard: Heard }).heard);

beforeAll(async () => {
  ward = await openBoardWard();
  const items = [byLength('glucose-1.36', 2000, 240)];
  // Filled nine hours ago for four: the server raises the alerts by itself.
  for (const [family, bed] of [
    ['TREVANION', '17'],
    ['NAKASHIMA', '22'],
  ] as const)
    patients[family] = await ward.admit({ family, given: 'Mavis', bed, inside: filledHoursAgo(9), items });
  await assign(ward, patients.NAKASHIMA!, 'Okoro');
  await ward.context.addInitScript(listenIn);
  await ward.context.grantPermissions(['notifications'], { origin: ward.origin });
});
afterAll(() => ward.close());
beforeEach(async () => {
  await ward.context.clearCookies();
  page = await ward.context.newPage();
  return () => page.close();
});

const alerts = `/ward/${WARD}/alerts`;
const alertOf = (name: string) => page.getByRole('listitem').filter({ hasText: name });
const device = (where: Page) => where.getByRole('region', { name: 'This device' });
const chosen = (where: Page, what: string, value: string) =>
  device(where).getByRole('group', { name: what }).getByText(value, { exact: true });
const openOf = async (family: string): Promise<OpenAlert> => {
  const { rows } = await (await ward.as('adair')).get<{ rows: { patient: { id: string }; alerts: OpenAlert[] }[] }>(
    `/api/wards/${WARD}/board`,
  );
  return rows.find(({ patient }) => patient.id === patients[family])!.alerts[0]!;
};

it('is silent until somebody chooses sound here; then one tab sounds, and stops when somebody has all of them', async () => {
  const trouble = troubleOf(page);
  await signInAs(page, ward.origin, 'adair', alerts);
  await alertOf('TREVANION').waitFor();
  expect(await page.locator('[data-sound]').count()).toBe(0);
  expect((await heardIn(page)).started).toBe(0);
  await chosen(page, 'Sound', 'High alerts').click();
  await eventually(() => page.locator('[data-sound]').innerText()).toBe('Sounding for bed 17, 22');
  expect(await heardIn(page)).toMatchObject({ started: 1, stopped: 0 });
  expect(await accessFaults(page)).toEqual([]);

  const other = await ward.context.newPage();
  await other.addInitScript(notYetAllowed);
  await other.goto(ward.origin + alerts);
  // a page may sound only after a press in it, and says so
  await other.getByRole('button', { name: 'Sound is not allowed yet: press here' }).click();
  await eventually(() => other.locator('[data-sound]').innerText()).toBe('Sound in another tab');
  expect((await heardIn(other)).started).toBe(0);

  // on another device the nurse takes one and snoozes the other: the record says so, and the tone stops
  const nurse = await ward.as('lindahl');
  for (const [family, kind] of [
    ['TREVANION', 'alertAcknowledged'],
    ['NAKASHIMA', 'alertSnoozed'],
  ] as const) {
    const { id } = await openOf(family);
    const now = Date.now();
    const payload = { alertId: id, until: now + 20 * 60_000 };
    await nurse.record(draft(kind, payload, { patientId: patients[family]!, happenedAt: now }));
  }
  await eventually(() => page.locator('[data-sound]').innerText()).toBe('Sound on');
  expect(await heardIn(page)).toMatchObject({ started: 1, stopped: 1 });

  // the next tab sounds when this one is gone
  await page.close();
  await eventually(() => other.locator('[data-sound]').innerText()).toBe('Sound on');
  await chosen(other, 'Sound', 'Off').click();
  await eventually(() => other.locator('[data-sound]').count()).toBe(0);
  await other.close();
  expect(trouble).toEqual([]);
});

it('shows a notice of the browser with bed and kind and no name, once chosen, and takes it back', async () => {
  const items = [byLength('glucose-1.36', 2000, 240)];
  await signInAs(page, ward.origin, 'adair', alerts);
  await chosen(page, 'Notices of the browser', 'High alerts').click();
  await eventually(() => page.evaluate(() => localStorage.getItem('slackwater.notices'))).toBe('high');
  patients.MWANGI = await ward.admit({
    family: 'MWANGI',
    given: 'Josephat',
    bed: '7',
    inside: filledHoursAgo(9),
    items,
  });
  await eventually(async () => (await heardIn(page)).notices).toContain('High: Drain overdue. Bed 7, Kestrel Ward');
  expect((await heardIn(page)).notices.join(' ')).not.toMatch(/mwangi|josephat|trevanion|nakashima/i);
  const { closed } = await heardIn(page);
  await alertOf('MWANGI')
    .getByRole('button', { name: /^Acknowledge/ })
    .click();
  await eventually(async () => (await heardIn(page)).closed).toBe(closed + 1);
  await chosen(page, 'Notices of the browser', 'Off').click();
});

it('filters by nurse: what she has, and her patients’ that nobody has', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  await alertOf('TREVANION').waitFor();
  await page.getByLabel('Whose').selectOption({ label: 'Okoro' });
  await eventually(() => alertOf('TREVANION').count()).toBe(0);
  // snoozed above, so nobody has it; she has the patient
  await alertOf('NAKASHIMA').waitFor();
  await page.getByLabel('Whose').selectOption({ label: 'Lindahl' });
  await alertOf('TREVANION').waitFor();
  expect(await alertOf('NAKASHIMA').count()).toBe(0);
});

it('says under which version of the settings an alert was raised', async () => {
  await (await ward.as('whitlock')).record(
    draft(
      'settingsChanged',
      { version: 2, changes: { acknowledgeMostMinutes: 25 } },
      { patientId: null, happenedAt: Date.now() },
    ),
  );
  await signInAs(page, ward.origin, 'adair', alerts);
  await eventually(() => alertOf('TREVANION').innerText()).toContain(
    'Raised under settings version 1; 2 is in force now.',
  );
});

it('shows what was cleared today, by whom and why', async () => {
  const { id } = await openOf('NAKASHIMA');
  const nurse = await ward.as('okoro');
  const payload = { alertId: id, by: 'person', reason: 'Drained on paper, being entered' } as const;
  await nurse.record(draft('alertCleared', payload, { patientId: patients.NAKASHIMA!, happenedAt: Date.now() }));
  await signInAs(page, ward.origin, 'adair', alerts);
  await page.getByText('Cleared today 1').click();
  const words = (await page.locator(`[data-cleared="${id}"]`).innerText()).replace(/\s+/g, ' ');
  expect(words).toMatch(/High Drain overdue Bed 22, NAKASHIMA, Mavis/);
  expect(words).toMatch(/settings version 1\. Nobody had it\. Cleared \d\d:\d\d by Okoro: Drained on paper/);
  expect(await accessFaults(page)).toEqual([]);
});

it('asks of itself whether it calls too often: each figure with its aim and what it rests on', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  const figures = page.getByRole('region', { name: 'Does it call too often?' });
  const row = (name: string) =>
    figures.getByRole('row').filter({ has: page.getByRole('rowheader', { name, exact: true }) });
  await eventually(() => row('High').innerText()).toMatch(/100 %\s+about 5 %\s+3 of 3/);
  expect(await row('Low').innerText()).toMatch(/0 %\s+about 80 %\s+0 of 3/);
  expect(await row('Until somebody had it').innerText()).toContain('2 alerts');
  expect(await row('Ended, never acted on').innerText()).toContain('0 of 1');
  expect(await row('Alerts per nurse and 10 min').innerText()).toMatch(/at most 1\s+3 alerts, [\d.]+ h of nurses/);
  await figures.getByText('12 h').click();
  await eventually(() => figures.getByRole('radio', { name: '12 h' }).isChecked()).toBe(true);
});

it('shows every rule with the ward’s settings, their defaults and where they are from', async () => {
  await signInAs(page, ward.origin, 'adair', alerts);
  await page.getByText(/About the rules/).click();
  const { policy } = await (await ward.as('adair')).get<WardView>(`/api/wards/${WARD}`);
  for (const kind of ALERT_KINDS) {
    const words = (await page.locator(`[data-rule="${kind}"]`).innerText()).replace(/\s+/g, ' ');
    expect(words).toContain(ALERT_TITLES[kind]);
    expect(words).toContain(ALERT_RULES[kind].when);
    for (const name of ALERT_RULES[kind].settings) {
      const value = `${policy.settings[name].toLocaleString('en-GB')} ${SETTINGS[name].unit}`;
      expect(words).toContain(`${SETTINGS[name].meaning}: ${value} (default `);
    }
  }
  expect(await accessFaults(page)).toEqual([]);
});
