import { randomUUID } from 'node:crypto';
import type { Additive, Draft, EntryKind, Payloads } from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, DRAIN_ONLY, draft, type Hospital, openHospital, PASSWORD, send } from './hospital.ts';

// Two people for what is added to a bag, and the least dwell of an antibiotic: product and clinical reference of the
// ward (RCP review, Box 2: once a day in the bag, at least 6 h). The rest is common practice.

const VANCOMYCIN: Additive = {
  what: 'vancomycin',
  amount: 1,
  unit: 'g',
  kind: 'antibiotic',
  minimumDwellMinutes: 360,
};
const BAG = { solutionId: 'glucose-2.27', labelledMl: 2000, expiresOn: null, lot: null, read: 'typed' } as const;
const LOOKED = ['patient', 'bag', 'additive', 'amount'] as const;

let hospital: Hospital;
let nurse: Browser;
let other: Browser;
let charge: Browser;
let physician: Browser;
let owner: pg.Pool;

beforeAll(async () => {
  hospital = await openHospital({ beds: 30 });
  [nurse, other] = [await hospital.signedIn('nurse'), await hospital.signedIn('other-nurse')];
  [charge, physician] = [await hospital.signedIn('charge'), await hospital.signedIn('physician')];
  owner = new pg.Pool({ connectionString: hospital.database.ownerUrl, max: 1 });
  owner.on('error', () => {});
});
afterAll(async () => {
  await owner.end();
  await hospital.close();
});

let bed = 0;

/** A patient with an empty cavity, connected for a fill with vancomycin that nobody has checked yet. */
async function connected(additives: readonly Additive[] = [VANCOMYCIN]) {
  bed += 1;
  const patientId = await admitted(charge, 'kestrel', String(bed), `Fennel${bed}`);
  const itemId = 'long';
  const item = { id: itemId, solutionId: BAG.solutionId, fillMl: 2000, additives, windowMinutes: 0, condition: null };
  const dwell = { by: 'length', dwellMinutes: 480 } as const;
  const prescribed = draft(
    'prescribed',
    { items: [{ ...item, dwell }], limits: NO_LIMITS, acute: false, note: null, reviewBy: null },
    { patientId },
  );
  expect(await send(physician, 'kestrel', prescribed)).toMatchObject({ status: 200 });
  const visitId = randomUUID();
  const named = { revisionId: prescribed.id, itemId, orderId: null };
  const bagChecks = { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null };
  const identifiers = ['name', 'dateOfBirth'] as const;
  const prepare = draft(
    'prepare',
    { purpose: 'fillOnly', identifiers, bag: BAG, ...named, bagChecks, override: null },
    { patientId, visitId },
  );
  const connect = draft('connect', {}, { patientId, visitId, after: prepare.id });
  expect(await send(nurse, 'kestrel', prepare, connect)).toMatchObject({ status: 200 });
  const fillId: string = randomUUID();
  const content = { bag: BAG, ...named, prescribedMl: 2000, additives };
  const write = <K extends EntryKind>(kind: K, payload: Payloads[K], rest: { id?: string; after?: string } = {}) =>
    draft(kind, payload, { patientId, visitId, ...rest });
  return {
    patientId,
    asks: (change: Partial<Payloads['additiveCheckAsked']> = {}) =>
      write('additiveCheckAsked', { fillId, ...content, ...change }),
    checks: (askedId: string, change: Partial<Payloads['additiveChecked']> = {}) =>
      write('additiveChecked', { askedId, looked: LOOKED, agrees: true, note: null, ...change }),
    fills: (change: Partial<Payloads['startFill']> = {}, id = fillId) =>
      write(
        'startFill',
        { ...content, flushMl: 100, sealBroken: true, noLeak: true, guardOverride: null, ...change },
        { id, after: connect.id },
      ),
  };
}

type Bed = Awaited<ReturnType<typeof connected>>;

const ok = async (browser: Browser, entry: Draft) =>
  expect(await send(browser, 'kestrel', entry)).toMatchObject({ status: 200 });

async function refusedWith(browser: Browser, entry: Draft): Promise<string[]> {
  const { status, body } = await send(browser, 'kestrel', entry);
  expect(status).toBe(422);
  return body.errors.map(({ code }: { code: string }) => code);
}

/** The second person gives their own password at the first one's device. */
const atTheBed = (login: string, entry: Draft<'additiveChecked'>, password = PASSWORD) =>
  nurse.post('/api/second-person', { login, password, wardId: 'kestrel', deviceAt: Date.now(), entry });

async function asked(at: Bed) {
  const ask = at.asks();
  await ok(nurse, ask);
  return ask.id;
}

describe('a bag with something added', () => {
  it('is not filled without a second person, and once with one', async () => {
    const at = await connected();
    expect(await refusedWith(nurse, at.fills())).toEqual(['second-person-needed']);
    const askedId = await asked(at);
    expect(await refusedWith(nurse, at.fills())).toEqual(['second-person-needed']);
    await ok(other, at.checks(askedId));
    const fill = at.fills();
    await ok(nurse, fill);
    // Twice is once: the same entry again is answered with the same receipt.
    const again = await send(nurse, 'kestrel', fill);
    expect(again.body.receipts[0].id).toBe(fill.id);
    const view = await nurse.get(`/api/patients/${at.patientId}/bedside`);
    expect(view.body.state.visit.fill.additives).toEqual([VANCOMYCIN]);
    // It is used up: nobody waits, and nothing is held for another fill.
    expect(view.body.state.visit.additiveCheck).toBeNull();
    expect(await refusedWith(other, at.checks(askedId))).toEqual(['nothing-to-check']);
  });

  it('holds what was ordered: nothing left out, nothing else', async () => {
    const at = await connected();
    const twoGrams = [{ ...VANCOMYCIN, amount: 2 }];
    expect(await refusedWith(nurse, at.asks({ additives: twoGrams }))).toEqual(['additives-not-ordered']);
    expect(await refusedWith(nurse, at.fills({ additives: [] }))).toEqual(['additives-not-ordered']);
  });

  it('is checked by somebody else, who looked at everything or says what differs', async () => {
    const at = await connected();
    const askedId = await asked(at);
    expect(await refusedWith(nurse, at.checks(askedId))).toEqual(['second-person-same']);
    expect(await refusedWith(other, at.checks(askedId, { looked: ['bag'] }))).toEqual(['not-looked-at']);
    expect(await refusedWith(other, at.checks(askedId, { agrees: false }))).toEqual(['missing']);
    await ok(other, at.checks(askedId, { agrees: false, note: 'the syringe says 2 g' }));
    expect(await refusedWith(nurse, at.fills())).toEqual(['second-person-differs']);
  });

  it('is not filled by its second person, nor with another bag, nor under another patient’s check', async () => {
    const at = await connected();
    const elsewhere = await connected();
    const askedId = await asked(at);
    await ok(other, at.checks(askedId));
    expect(await refusedWith(other, at.fills())).toEqual(['second-person-same']);
    expect(await refusedWith(nurse, at.fills({ bag: { ...BAG, lot: 'K1' } }))).toEqual(['second-person-other-bag']);
    expect(await refusedWith(nurse, at.fills({}, randomUUID()))).toEqual(['second-person-other-bag']);
    expect(await refusedWith(other, elsewhere.checks(askedId))).toEqual(['nothing-to-check']);
    expect(await refusedWith(nurse, elsewhere.fills())).toEqual(['second-person-needed']);
  });

  it('waits two minutes by the database’s clock, and no longer', async () => {
    const at = await connected();
    const askedId = await asked(at);
    await ok(other, at.checks(askedId));
    await backdateCheck(at, 121);
    expect(await refusedWith(nurse, at.fills())).toEqual(['second-person-too-old']);
    // The same question may be answered once more.
    await ok(other, at.checks(askedId));
    await backdateCheck(at, 60);
    await ok(nurse, at.fills());
  });

  it('is entered afterwards from paper with the second person’s name, and not while it happens', async () => {
    const at = await connected();
    const afterwards = { secondPerson: 'R. Marsh' };
    expect(await refusedWith(nurse, at.fills({ afterwards }))).toEqual(['not-afterwards']);
  });
});

/** The answer as if the database had received it so many seconds earlier. */
const backdateCheck = (at: Bed, seconds: number) =>
  owner.query(
    `UPDATE bedside SET state = jsonb_set(state::jsonb, '{visit,additiveCheck,checked,receivedAt}',
       to_jsonb((extract(epoch FROM clock_timestamp()) * 1000)::bigint - $2::bigint * 1000))
     WHERE patient_id = $1`,
    [at.patientId, seconds],
  );

describe('the second person at the same device', () => {
  it('signs with their own password, and the first one’s session stays', async () => {
    const at = await connected();
    const askedId = await asked(at);
    const { status, body } = await atTheBed('other-nurse', at.checks(askedId));
    expect([status, body.bedside.visit.additiveCheck.checked.by]).toEqual([200, hospital.accounts['other-nurse']]);
    expect((await nurse.get('/api/session')).body.account.login).toBe('nurse');
    await ok(nurse, at.fills());
    const { rows } = await owner.query(
      `SELECT detail FROM audit WHERE action = 'secondPersonChecked' AND account_id = $1`,
      [hospital.accounts['other-nurse']],
    );
    expect(rows).toEqual([{ detail: { inSessionOf: hospital.accounts.nurse } }]);
  });

  it('is not the first one again, a manager, a wall display, or somebody of another ward', async () => {
    const at = await connected();
    const askedId = await asked(at);
    expect((await atTheBed('nurse', at.checks(askedId))).body.errors[0].code).toBe('second-person-same');
    for (const login of ['manager', 'wall', 'merlin-nurse', 'nobody']) {
      expect((await atTheBed(login, at.checks(askedId))).status, login).toBe(403);
    }
    for (const login of ['manager', 'wall']) {
      const browser = await hospital.signedIn(login);
      expect((await send(browser, 'kestrel', at.checks(askedId))).status, login).toBe(403);
    }
    for (const login of ['charge', 'physician']) {
      const one = await connected();
      expect((await atTheBed(login, one.checks(await asked(one)))).status, login).toBe(200);
    }
  });

  it('is slowed after wrong passwords as at sign-in, and each is in the audit', async () => {
    const at = await connected();
    const askedId = await asked(at);
    const tries: number[] = [];
    for (let count = 0; count < 6; count += 1) {
      tries.push((await atTheBed('charge', at.checks(askedId), 'not the password')).status);
    }
    expect(tries).toEqual([401, 401, 401, 401, 401, 429]);
    const { rows } = await owner.query(
      `SELECT count(*)::int AS failed FROM audit WHERE action = 'secondPersonFailed'
      AND patient_id = $1`,
      [at.patientId],
    );
    expect(rows[0].failed).toBe(5);
  });
});

describe('a drain before an antibiotic has dwelt its time', () => {
  it('asks for a reason, and goes on with one', async () => {
    const at = await connected();
    await ok(other, at.checks(await asked(at)));
    const fill = at.fills();
    await ok(nurse, fill);
    const { visitId, patientId } = fill;
    const step = <K extends EntryKind>(kind: K, payload: Payloads[K], after: string, visit = visitId as string) =>
      draft(kind, payload, { patientId, visitId: visit, after });
    const end = step('endFill', { infused: { basis: 'wholeBag', labelledMl: 2000 } }, fill.id);
    const close = step('close', { leftEmpty: false }, end.id);
    const visit: string = randomUUID();
    const prepare = step('prepare', DRAIN_ONLY, close.id, visit);
    const connect = step('connect', {}, prepare.id, visit);
    expect(await send(nurse, 'kestrel', end, close, prepare, connect)).toMatchObject({ status: 200 });
    expect(await refusedWith(nurse, step('startDrain', {}, connect.id, visit))).toEqual(['additive-must-stay']);
    const early = { reason: 'pain', physician: null };
    await ok(nurse, step('startDrain', { early }, connect.id, visit));
  });
});
