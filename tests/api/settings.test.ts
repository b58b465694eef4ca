import { SETTINGS } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Browser, draft, type Hospital, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let manager: Browser;
beforeAll(async () => {
  hospital = await openHospital();
  manager = await hospital.signedIn('manager');
});
afterAll(() => hospital.close());

const changed = (version: number, changes: Record<string, number | string>) =>
  draft('settingsChanged', { version, changes }, { patientId: null });
const policy = async () => (await manager.get('/api/wards/kestrel')).body.policy;

describe('the ward’s settings', () => {
  it('are changed by a manager, in versions, each an entry of the ward', async () => {
    const answer = await send(manager, 'kestrel', changed(2, { residualMl: 150 }));
    expect(answer).toMatchObject({ status: 200, body: { bedside: null, position: 1 } });
    expect(await policy()).toMatchObject({ version: 2, settings: { residualMl: 150 } });
  });

  it('are not changed twice at once: the second must look first', async () => {
    const answer = await send(manager, 'kestrel', changed(2, { residualMl: 180 }));
    expect(answer.status).toBe(409);
    expect(await policy()).toMatchObject({ version: 2, settings: { residualMl: 150 } });
  });

  it('stay within their ranges, and none is invented', async () => {
    const { max } = SETTINGS.residualMl;
    const outside = await send(manager, 'kestrel', changed(3, { residualMl: Number(max) + 1 }));
    expect(outside).toMatchObject({ status: 422, body: { errors: [{ value: Number(max) + 1 }] } });
    expect(outside.body.errors[0].field).toContain('residualMl');
    expect(outside.body.errors[0].allowed).toContain(String(max));
    expect((await send(manager, 'kestrel', changed(3, { colour: 1 }))).status).toBe(422);
    expect((await policy()).version).toBe(2);
  });

  it('are of no concern to a nurse', async () => {
    const charge = await hospital.signedIn('charge');
    expect((await send(charge, 'kestrel', changed(3, { residualMl: 150 }))).status).toBe(403);
  });
});

describe('the ward’s own words for a response', () => {
  it('are a version of its settings like any number, and leave the numbers as they are', async () => {
    const before = await policy();
    const next = before.version + 1;
    const answer = await send(manager, 'kestrel', changed(next, { 'cloudy.tell': 'The renal registrar on call' }));
    expect(answer.status).toBe(200);
    expect(await policy()).toMatchObject({
      version: next,
      responses: { 'cloudy.tell': 'The renal registrar on call' },
      settings: before.settings,
    });
    expect((await send(manager, 'kestrel', changed(next + 1, { 'cloudy.tell': '', residualMl: 160 }))).status).toBe(
      200,
    );
    expect(await policy()).toMatchObject({ responses: {}, settings: { residualMl: 160 } });
  });

  it('are refused where they are too long, hide something, or answer to nothing', async () => {
    const { version } = await policy();
    const lines = await send(manager, 'kestrel', changed(version + 1, { 'cloudy.doNow': '1\n2\n3\n4\n5\n6\n7\n8\n9' }));
    expect(lines).toMatchObject({ status: 422, body: { errors: [{ code: 'out-of-range' }] } });
    expect(lines.body.errors[0].field).toContain('cloudy.doNow');
    for (const changes of [{ 'cloudy.tell': 'x'.repeat(501) }, { 'cloudy.tell': 'A\u202eB' }, { 'purple.tell': 'A' }]) {
      const refused = await send(manager, 'kestrel', changed(version + 1, changes as Record<string, string>));
      expect([400, 422]).toContain(refused.status);
    }
    expect((await policy()).version).toBe(version);
  });
});

describe('the history of the settings', () => {
  it('says of every version who made it, when, and what it changed from and to', async () => {
    const { version, settings } = await policy();
    const to = settings.slowDrainMinutes + 1;
    const changes = { slowDrainMinutes: to, 'cloudy.tell': 'The renal registrar' };
    expect((await send(manager, 'kestrel', changed(version + 1, changes))).status).toBe(200);
    const { body } = await manager.get('/api/wards/kestrel/settings?limit=1');
    expect(body.versions).toMatchObject([{ version: version + 1, by: 'Name of manager' }]);
    expect(new Set(body.versions[0].changes)).toEqual(
      new Set([
        { key: 'slowDrainMinutes', from: settings.slowDrainMinutes, to },
        { key: 'cloudy.tell', from: null, to: 'The renal registrar' },
      ]),
    );
  });

  it('comes in pages, newest first, down to the second version', async () => {
    const nurse = await hospital.signedIn('nurse');
    const first = (await nurse.get('/api/wards/kestrel/settings?limit=2')).body;
    const rest = (await nurse.get(`/api/wards/kestrel/settings?cursor=${first.nextCursor}`)).body;
    const versions = [...first.versions, ...rest.versions].map(({ version }: { version: number }) => version);
    const { version } = await policy();
    expect(versions).toEqual(Array.from({ length: version - 1 }, (_, index) => version - index));
    expect(rest.nextCursor).toBeNull();
  });
});
