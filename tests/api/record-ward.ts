import { randomUUID } from 'node:crypto';
import {
  type BedsideState,
  type Draft,
  type EntryKind,
  type EpochMs,
  type FluidHandover,
  fluidToTell,
  MINUTE_MS,
  type Payloads,
  type Role,
  STANDARD_FORMULARY,
} from '@slackwater/domain';
import { NO_LIMITS } from '@slackwater/domain/testing/no-limits';
import pg from 'pg';
import type { Actor, Appended, AppendResult } from '../../apps/api/src/record/batch.ts';
import type { AppendFailure } from '../../apps/api/src/record/failures.ts';
import { openSite, openWard } from '../../apps/api/src/record/open-ward.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { createRecord, type Recorder } from '../../apps/api/src/record/record.ts';

export const SITE = 'alder-point';
export const WARD = 'kestrel';
export const OTHER_WARD = 'plover';
const BEDS = Array.from({ length: 40 }, (_, index) => String(index + 1));

/** A pool as the server has one. */
export const pool = (url: string, max = 4): pg.Pool => {
  const made = new pg.Pool({
    connectionString: url,
    max,
    options: '-c TimeZone=UTC',
    application_name: 'slackwater-test',
  });
  // a dropped database ends its idle connections: nothing a test has to hear of
  made.on('error', () => undefined);
  return made;
};

/** Ends a pool and waits for its connections: dropping the database would cut them while they close. */
export async function close(ended: pg.Pool): Promise<void> {
  let left = ended.totalCount;
  const gone = new Promise<void>((resolve) => {
    if (left === 0) resolve();
    ended.on('remove', () => {
      left -= 1;
      if (left === 0) resolve();
    });
  });
  await ended.end();
  await gone;
}

/** Two empty wards of an invented hospital, with one account of each role. */
export type TestWard = {
  pool: pg.Pool;
  record: Recorder;
  actors: Record<'nurse' | 'other' | 'charge' | 'physician' | 'manager', Actor>;
};

export async function testWard(db: pg.Pool): Promise<TestWard> {
  await openSite(db, { id: SITE, name: 'Alder Point Hospital' }, STANDARD_FORMULARY);
  for (const [id, name] of [
    [WARD, 'Kestrel Ward'],
    [OTHER_WARD, 'Plover Ward'],
  ] as const) {
    await openWard(db, { siteId: SITE, id, name, zone: 'Europe/London', shiftStarts: ['07:00', '19:00'], beds: BEDS });
  }
  const actors = {
    nurse: await account(db, 'nurse', 'Nell Ward'),
    other: await account(db, 'nurse', 'Otto Ward'),
    charge: await account(db, 'chargeNurse', 'Cora Ward'),
    physician: await account(db, 'nephrologist', 'Dr Pia Ward'),
    manager: await account(db, 'manager', 'Max Ward'),
  };
  return { pool: db, record: createRecord({ pool: db, policies: createPolicies() }), actors };
}

async function account(db: pg.Pool, role: Role, name: string): Promise<Actor> {
  const id = randomUUID();
  await db.query(
    `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, created_at)
    VALUES ($1, $2, $3, $4, 'none', now(), now())`,
    [SITE, id, `${id}`, name],
  );
  return { accountId: id, role };
}

/** Somebody known to the hospital, in no bed yet. */
export async function patient(db: pg.Pool, family = 'Invented'): Promise<string> {
  const id = randomUUID();
  await db.query(
    `INSERT INTO patient (site_id, id, hospital_number, family, given, date_of_birth, gender, cautions, created_at)
    VALUES ($1, $2, $3, $4, 'Person', '1960-05-17', 'female', '{}', now())`,
    [SITE, id, `A${id}`, family],
  );
  return id;
}

/** Writes and insists that it was written. */
export async function mustAppend(
  { record }: TestWard,
  author: Actor,
  drafts: readonly Draft[],
  wardId: string = WARD,
): Promise<Appended> {
  const result = await send(record, author, drafts, wardId);
  if (!result.ok) throw new Error(`The batch was not written: ${JSON.stringify(result.failure)}`);
  return result.appended;
}

/** Writes and insists that it was not written. */
export async function mustFail(
  { record }: TestWard,
  author: Actor,
  drafts: readonly Draft[],
  wardId: string = WARD,
): Promise<AppendFailure> {
  const result = await send(record, author, drafts, wardId);
  if (result.ok) throw new Error('The batch was written.');
  return result.failure;
}

export const send = (
  record: Recorder,
  author: Actor,
  drafts: readonly Draft[],
  wardId: string = WARD,
): Promise<AppendResult> => record.append({ siteId: SITE, wardId, author, deviceAt: Date.now(), drafts });

/** An entry as an author writes it. */
export const draft = <K extends EntryKind>(
  kind: K,
  payload: Payloads[K],
  of: { patientId: string | null; happenedAt: EpochMs; visitId?: string | null; after?: string | null; id?: string },
): Draft =>
  ({
    id: of.id ?? randomUUID(),
    kind,
    format: 1,
    payload,
    patientId: of.patientId,
    visitId: of.visitId ?? null,
    happenedAt: of.happenedAt,
    after: of.after ?? null,
  }) as Draft;

/** Somebody was told of the fluid inside, as the record has it now: what leaving with it takes. */
export async function toldOfFluid(db: pg.Pool, patientId: string): Promise<{ fluid?: FluidHandover }> {
  const { rows } = await db.query<{ state: BedsideState }>(
    'SELECT state FROM bedside WHERE site_id = $1 AND patient_id = $2',
    [SITE, patientId],
  );
  const said = rows[0] ? fluidToTell(rows[0].state) : null;
  return said === null ? {} : { fluid: { toWhom: 'Nadia Marsh', said } };
}

const FILL_ML = 2000;
const SOLUTION = 'glucose-2.27';

/** Admits with 2 L of 2.5 % inside since `fillEndedAt`. */
export const admitted = (patientId: string, bed: string, happenedAt: EpochMs, fillEndedAt: EpochMs): Draft =>
  draft(
    'admitted',
    { bed, inside: { cavity: 'holding', solutionId: SOLUTION, filledMl: FILL_ML, fillEndedAt }, dialysis: 'chronic' },
    { patientId, happenedAt },
  );

/** Four exchanges a day of 2 L, each dwelling for `dwellMinutes`. */
export const prescribed = (patientId: string, happenedAt: EpochMs, dwellMinutes = 240): Draft =>
  draft(
    'prescribed',
    {
      items: ['a', 'b', 'c', 'd'].map((id) => ({
        id,
        solutionId: SOLUTION,
        fillMl: FILL_ML,
        additives: [],
        dwell: { by: 'length', dwellMinutes },
        windowMinutes: 30,
        condition: null,
      })),
      limits: NO_LIMITS,
      acute: false,
      note: null,
      reviewBy: null,
    },
    { patientId, happenedAt },
  );

const BAG = { solutionId: SOLUTION, labelledMl: FILL_ML, expiresOn: '2099-01-01', lot: 'K1', read: 'typed' } as const;

export type Prescribed = { patientId: string; revisionId: string };

/** One ordinary exchange of 30 minutes, each step naming the one before; `itemId` is of the prescription. */
export function exchange(
  { patientId, revisionId }: Prescribed,
  startAt: EpochMs,
  after: string | null,
  options: { visitId?: string; drainedMl?: number; itemId?: string } = {},
): Draft[] {
  const visitId = options.visitId ?? randomUUID();
  const itemId = options.itemId ?? 'a';
  let last = after;
  const step = <K extends EntryKind>(kind: K, minutes: number, payload: Payloads[K]) => {
    const made = draft(kind, payload, { patientId, visitId, happenedAt: startAt + minutes * MINUTE_MS, after: last });
    last = made.id;
    return made;
  };
  return [
    step('prepare', 0, {
      purpose: 'exchange',
      identifiers: ['name', 'dateOfBirth'],
      bag: BAG,
      revisionId,
      itemId,
      orderId: null,
      bagChecks: { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null },
      override: null,
    }),
    step('connect', 2, {}),
    step('startDrain', 3, {}),
    step('endDrain', 18, { flow: 'stopped' }),
    draft(
      'measure',
      {
        drain: 1,
        role: 'reading',
        flushIncluded: false,
        flushMl: 0,
        method: 'jug',
        volumeMl: options.drainedMl ?? 2350,
      },
      { patientId, visitId, happenedAt: startAt + 19 * MINUTE_MS },
    ),
    step('startFill', 20, {
      bag: BAG,
      revisionId,
      itemId,
      orderId: null,
      prescribedMl: FILL_ML,
      additives: [],
      flushMl: 0,
      sealBroken: true,
      noLeak: true,
      guardOverride: null,
    }),
    step('endFill', 29, { infused: { basis: 'stated', volumeMl: FILL_ML } }),
    step('close', 30, { leftEmpty: false }),
  ];
}

/** A patient in a bed with a prescription: what most tests begin with. */
export async function inBed(
  ward: TestWard,
  bed: string,
  since: EpochMs,
  options: { family?: string; dwellMinutes?: number; wardId?: string } = {},
): Promise<Prescribed> {
  const patientId = await patient(ward.pool, options.family);
  const prescription = prescribed(patientId, since, options.dwellMinutes);
  const wardId = options.wardId ?? WARD;
  await mustAppend(ward, ward.actors.charge, [admitted(patientId, bed, since, since)], wardId);
  await mustAppend(ward, ward.actors.physician, [prescription], wardId);
  return { patientId, revisionId: prescription.id };
}
