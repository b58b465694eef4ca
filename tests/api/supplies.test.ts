import { randomUUID } from 'node:crypto';
import type { BagInHand, Payloads, SupplyChange } from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, draft, type Hospital, openHospital, send } from './hospital.ts';

/** 952: GS1's prefix for demonstrations. */
const GTIN = '09521234543213';
const HELD_BY = { identifiers: ['name', 'dateOfBirth'] } as const;

const ITEM = { id: 'a', solutionId: 'glucose-2.27', fillMl: 2000, additives: [], windowMinutes: 0, condition: null };

let hospital: Hospital;
let nurse: Browser;
let charge: Browser;
let manager: Browser;
let patientId: string;
let revisionId: string;
beforeAll(async () => {
  hospital = await openHospital();
  nurse = await hospital.signedIn('nurse');
  charge = await hospital.signedIn('charge');
  manager = await hospital.signedIn('manager');
  patientId = await admitted(charge, 'kestrel', '1');
  revisionId = randomUUID();
  const physician = await hospital.signedIn('physician');
  const items = [{ ...ITEM, dwell: { by: 'length', dwellMinutes: 240 } as const }];
  const payload = { items, limits: NO_LIMITS, acute: false, note: null, reviewBy: null };
  const answer = await send(physician, 'kestrel', draft('prescribed', payload, { id: revisionId, patientId }));
  expect(answer.status, answer.text).toBe(200);
});
afterAll(() => hospital.close());

const changed = (change: SupplyChange, by: Browser = charge, wardId = 'kestrel') =>
  send(by, wardId, draft('suppliesChanged', { change }, { patientId: null }));
const suppliesOf = async (wardId = 'kestrel', by = manager) =>
  (await by.get(`/api/wards/${wardId}`)).body.policy.supplies;
const codes = (answer: { body: { errors?: { code: string }[] } }) => answer.body.errors?.map(({ code }) => code);

const scanned = (lot: string, change: Partial<BagInHand> = {}): BagInHand => ({
  solutionId: 'glucose-2.27',
  labelledMl: 2000,
  expiresOn: '2060-08-31',
  lot,
  read: 'scanned',
  label: `01${GTIN}1760083110${lot}`,
  ...change,
});

const prepared = (bag: BagInHand, over: Partial<Payloads['prepare']> = {}) =>
  draft(
    'prepare',
    {
      purpose: 'fillOnly',
      ...HELD_BY,
      bag,
      revisionId,
      itemId: 'a',
      orderId: null,
      bagChecks: { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null },
      override: null,
      ...over,
    },
    { patientId, visitId: randomUUID() },
  );

describe('products and recalls', () => {
  it('are kept by a charge nurse or a manager, each change an entry, and hold on every ward', async () => {
    const product = { gtin: GTIN, solutionId: 'glucose-2.27', labelledMl: 2000 };
    expect((await changed({ what: 'productListed', product }, nurse)).status).toBe(403);
    expect(await changed({ what: 'productListed', product })).toMatchObject({ status: 200, body: { bedside: null } });
    expect(await suppliesOf('merlin')).toEqual({ products: [product], recalls: [] });
    expect(codes(await changed({ what: 'productListed', product }, manager))).toEqual(['product-listed']);
    const { rows } = await hospital.pool.query('SELECT version, ward_id FROM supplies');
    expect(rows).toEqual([{ version: 2, ward_id: 'kestrel' }]);
  });

  it('that two wards change at once both stand', async () => {
    const recall = (lot: string): SupplyChange => ({
      what: 'lotRecalled',
      lot,
      of: { solutionId: 'glucose-3.86' },
      reason: 'particles',
    });
    const answers = await Promise.all(
      ['kestrel', 'merlin', 'kestrel', 'merlin'].map((ward, index) => changed(recall(`R${index}`), manager, ward)),
    );
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200]);
    const { recalls } = await suppliesOf();
    expect(recalls.map(({ lot }: { lot: string }) => lot).sort()).toEqual(['R0', 'R1', 'R2', 'R3']);
  });

  it('that are wrong are refused, with the field', async () => {
    const product = { gtin: '09521234543220', solutionId: 'glucose-2.27', labelledMl: 2100 };
    const answer = await changed({ what: 'productListed', product });
    expect(answer).toMatchObject({ status: 422, body: { errors: [{ value: 2100 }] } });
    expect(answer.body.errors[0].field).toBe('entries.0.payload.change.product.labelledMl');
  });
});

describe('a scanned bag is judged on the server', () => {
  it('a label that cannot be one, or says something else than the entry, is refused', async () => {
    const wrongDigit = scanned('A1', { label: '010952123454321417600831' });
    expect(codes(await send(nurse, 'kestrel', prepared(wrongDigit)))).toEqual(['bag-label']);
    const typedOver = scanned('A1', { expiresOn: '2059-08-31' });
    expect(codes(await send(nurse, 'kestrel', prepared(typedOver)))).toEqual(['bag-label']);
    const otherProduct = scanned('A1', { solutionId: 'glucose-1.36' });
    expect(codes(await send(nurse, 'kestrel', prepared(otherProduct)))).toEqual(['bag-label', 'bag-solution']);
    const control = scanned('A1', { label: '01\u0000' });
    expect((await send(nurse, 'kestrel', prepared(control))).status).toBe(400);
  });

  it('an expired one is refused; going on takes the role and a reason, and is noted for the manager', async () => {
    const expired = scanned('A1', { expiresOn: '2024-08-31', label: `01${GTIN}1724083110A1` });
    const override = { reason: 'the last bag, pharmacy agrees', physician: 'Dr Invented' };
    const refused = await send(nurse, 'kestrel', prepared(expired, { override }));
    expect(codes(refused)).toEqual(['bag-expired']);
    expect(refused.body.errors[0]).toMatchObject({ field: 'entries.0.payload.bag.expiresOn', value: '2024-08-31' });
    expect(codes(await send(charge, 'kestrel', prepared(expired)))).toEqual(['bag-expired']);

    const other = await admitted(charge, 'kestrel', '2');
    const items = [{ ...ITEM, dwell: { by: 'length', dwellMinutes: 240 } as const }];
    const physician = await hospital.signedIn('physician');
    const prescribed = draft(
      'prescribed',
      { items, limits: NO_LIMITS, acute: false, note: null, reviewBy: null },
      { patientId: other },
    );
    await send(physician, 'kestrel', prescribed);
    const prepare = draft(
      'prepare',
      { ...prepared(expired, { override }).payload, revisionId: prescribed.id },
      { patientId: other, visitId: randomUUID() },
    );
    expect((await send(charge, 'kestrel', prepare)).status).toBe(200);
    const { body } = await manager.get(`/api/audit?accountId=${hospital.accounts.charge}&kind=overrode`);
    expect(body.events[0]).toMatchObject({ patientId: other, detail: { entry: prepare.id, step: 'prepare' } });
  });

  it('a recalled lot is refused, in whatever case it is typed; another lot is not', async () => {
    await changed({ what: 'lotRecalled', lot: 'LEAK7', of: { gtin: GTIN }, reason: 'leaks at the port' });
    const answer = await send(nurse, 'kestrel', prepared(scanned('LEAK7')));
    expect(codes(answer)).toEqual(['bag-recalled']);
    expect(answer.body.errors[0].message).toContain('leaks at the port');
    const { label: _, ...typed } = scanned('leak7', { read: 'typed' });
    expect(codes(await send(nurse, 'kestrel', prepared(typed)))).toEqual(['bag-recalled']);
    expect(codes(await send(nurse, 'kestrel', prepared({ ...typed, lot: null })))).toEqual(['bag-lot-unread']);
  });

  it('going on with it takes the role and a reason; a physician’s word to a nurse is not enough', async () => {
    const byWord = { reason: 'none other', physician: 'Dr Invented' };
    expect(codes(await send(nurse, 'kestrel', prepared(scanned('LEAK7'), { override: byWord })))).toEqual([
      'bag-recalled',
    ]);
    const prepare = prepared(scanned('LEAK7'), { override: { reason: 'checked, port is whole', physician: null } });
    const visit = { patientId, visitId: prepare.visitId as string };
    const connect = draft('connect', {}, { ...visit, after: prepare.id, happenedAt: prepare.happenedAt });
    expect((await send(charge, 'kestrel', prepare, connect)).status).toBe(200);
    const named = { revisionId, itemId: 'a', orderId: null, prescribedMl: 2000, additives: [], flushMl: 100 };
    const fill = (bag: BagInHand) =>
      draft(
        'startFill',
        { bag, ...named, sealBroken: true, noLeak: true, guardOverride: null },
        { ...visit, after: connect.id },
      );
    // the bag that was let through may be filled from; one that nobody let through may not
    await changed({ what: 'lotRecalled', lot: 'LEAK8', of: { gtin: GTIN }, reason: 'leaks' });
    expect(codes(await send(nurse, 'kestrel', fill(scanned('LEAK8'))))).toEqual(['bag-recalled']);
    expect((await send(nurse, 'kestrel', fill(scanned('LEAK7')))).status).toBe(200);
  });
});

describe('who had a lot', () => {
  const search = (lot: string, by: Browser = nurse, wardId = 'kestrel') =>
    by.get(`/api/wards/${wardId}/lots?lot=${encodeURIComponent(lot)}`);

  it('is one search: patient, bag, time, ward; once a visit', async () => {
    const { status, body } = await search(' leak7 ');
    expect(status).toBe(200);
    expect(body.uses).toHaveLength(1);
    expect(body.uses[0]).toMatchObject({
      patient: { id: patientId, family: 'Fennel' },
      wardId: 'kestrel',
      nowBed: '1',
      filled: true,
      lot: 'LEAK7',
      expiresOn: '2060-08-31',
    });
    expect((await search('LEAK8')).body).toMatchObject({ uses: [], more: false, unreadFills: 0 });
  });

  it('shows nobody whose ward one may not read, and the manager all', async () => {
    const merlin = await hospital.signedIn('merlin-nurse');
    expect((await search('LEAK7', merlin, 'merlin')).body.uses).toEqual([]);
    expect((await search('LEAK7', merlin)).status).toBe(404);
    expect((await search('LEAK7', manager, 'merlin')).body.uses).toHaveLength(1);
    expect((await search('LEAK7', await hospital.signedIn('wall'))).status).toBe(403);
  });

  it('is noted, with whom it showed', async () => {
    const { body } = await manager.get(`/api/audit?accountId=${hospital.accounts.nurse}`);
    const found = body.events.find((event: { what: string }) => event.what === 'searchedLot');
    expect(found).toMatchObject({ wardId: 'kestrel' });
    const [first] = body.events.filter((event: { detail: { lot?: string } }) => event.detail.lot === 'leak7');
    expect(first.detail.found).toEqual([patientId]);
  });

  it('is answered by the index of the lots', async () => {
    const client = await hospital.pool.connect();
    try {
      await client.query('SET enable_seqscan = off');
      const { rows } = await client.query(
        `EXPLAIN SELECT * FROM bag_use WHERE site_id = 'alder-point' AND lot_key = 'LEAK7' ORDER BY at`,
      );
      expect(JSON.stringify(rows)).toContain('bag_use_site_id_lot_key_at_idx');
    } finally {
      await client.query('RESET enable_seqscan');
      client.release();
    }
  });
});
