import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { sweep } from '../../apps/api/src/alarms/sweep.ts';
import { SheetError } from '../../apps/api/src/modules/import/import.csv.ts';
import { createPolicies } from '../../apps/api/src/record/policies.ts';
import { rebuild } from '../../apps/api/src/record/rebuild.ts';
import { verify } from '../../apps/api/src/record/verify.ts';
import {
  counts,
  foldedText,
  HEADER,
  type ImportWard,
  importCsv,
  month,
  openImportWard,
  sheetOf,
} from './import-ward.ts';
import { draft, exchange, inBed, mustAppend, OTHER_WARD, patient, prescribed, SITE, WARD } from './record-ward.ts';

let ward: ImportWard;
let number: string;
beforeAll(async () => {
  ward = await openImportWard();
});
afterAll(() => ward.close());

/** The hospital number of a patient. */
const numberOf = async (patientId: string): Promise<string> =>
  (await ward.pool.query('SELECT hospital_number FROM patient WHERE id = $1', [patientId])).rows[0].hospital_number;

beforeEach(async () => {
  number = await numberOf(await patient(ward.pool));
});

type Given = {
  ward?: string;
  number?: string;
  drain?: readonly [string, string];
  drainedMl?: string;
  appearance?: string;
  fill?: readonly [string, string];
  filledMl?: string;
  solution?: string;
};

/** One line; clock times are of 5 October 2026 in UTC unless a date stands before them. */
function line(given: Given): string {
  const at = (clock = '') => (clock === '' || clock.includes('T') ? clock : `2026-10-05T${clock}Z`);
  const { drain = [], fill = [], drainedMl = drain.length ? '2100' : '', filledMl = fill.length ? '2000' : '' } = given;
  const solution = given.solution ?? (fill.length ? 'glucose-1.36' : '');
  return [
    given.ward ?? WARD,
    given.number ?? number,
    at(drain[0]),
    at(drain[1]),
    drainedMl,
    given.appearance ?? '',
    at(fill[0]),
    at(fill[1]),
    filledMl,
    solution,
    '',
  ].join(',');
}

const ordinary = () => [
  line({ fill: ['08:00', '08:10'] }),
  line({ drain: ['12:00', '12:20'], fill: ['12:25', '12:35'] }),
  line({ drain: ['17:00', '17:20'] }),
];

/** What is wrong, as `line column: message`; fails where the sheet came in. */
async function wrongWith(sheet: string, people: string | null = null, onlyWard: string | null = null) {
  const before = [await counts(ward.pool), await foldedText(ward.pool)];
  const result = await importCsv(ward.pool, sheet, people, onlyWard);
  if ('imported' in result) throw new Error('The sheet came in.');
  // all or nothing: neither rows, nor people, nor what is folded from them
  expect([await counts(ward.pool), await foldedText(ward.pool)]).toEqual(before);
  return result.refused;
}

const words = async (sheet: string) =>
  (await wrongWith(sheet)).bad.listed.map(({ line, column, message }) => `${line} ${column}: ${message}`);

describe('a sheet that is right', () => {
  test('takes the next positions of the ward, in the order of time, and the chain holds', async () => {
    const rows = ordinary();
    const before = (await verify(ward.pool, SITE)).wards.find(({ wardId }) => wardId === WARD)!.position;
    await importCsv(ward.pool, sheetOf(...rows.toReversed()));
    const { rows: entries } = await ward.pool.query(
      `SELECT entry.position - $2 AS place, entry.sequence, to_char(happened_at, 'HH24:MI') AS at FROM entry
       JOIN patient ON patient.id = entry.patient_id WHERE hospital_number = $1 ORDER BY position`,
      [number, before],
    );
    expect(entries).toEqual([
      { place: 1, sequence: 1, at: '08:10' },
      { place: 2, sequence: 2, at: '12:35' },
      { place: 3, sequence: 3, at: '17:20' },
    ]);
    expect((await verify(ward.pool, SITE)).faults).toEqual([]);
  });

  test('of two wards publishes in both', async () => {
    const result = await importCsv(
      ward.pool,
      sheetOf(line({ ward: OTHER_WARD, fill: ['08:00', '08:10'] }), line({ drain: ['12:00', '12:20'] })),
    );
    expect(result).toMatchObject({ imported: { added: 2, patients: 1 } });
    expect((await verify(ward.pool, SITE)).faults).toEqual([]);
    const before = await foldedText(ward.pool);
    await rebuild(ward.pool, createPolicies(), SITE);
    expect(await foldedText(ward.pool)).toBe(before);
  });

  test('that grows by a day adds that day alone', async () => {
    const day = ordinary();
    await importCsv(ward.pool, sheetOf(...day));
    const more = line({ fill: ['20:00', '20:10'] });
    expect(await importCsv(ward.pool, sheetOf(...day, more))).toMatchObject({ imported: { added: 1, known: 3 } });
    expect((await verify(ward.pool, SITE)).faults).toEqual([]);
  });

  test('two at once come in one after the other, each once', async () => {
    const sheet = sheetOf(...ordinary());
    const both = await Promise.all([importCsv(ward.pool, sheet), importCsv(ward.pool, sheet)]);
    expect(both.map((one) => ('imported' in one ? one.imported.added : null)).toSorted()).toEqual([0, 3]);
  });
});

test('nurses go on writing while a month comes in, and every position is taken once', async () => {
  const { sheet, people } = await month();
  const now = Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS;
  const beds = await Promise.all(['11', '12', '13', '14'].map((bed) => inBed(ward, bed, now - 10 * HOUR_MS)));
  const numbers = await Promise.all(beds.map(({ patientId }) => numberOf(patientId)));
  // history of those at whose beds the nurses write, too
  const mine = numbers.map((one) => line({ number: one, drain: ['08:00', '08:20'] }));
  const [imported] = await Promise.all([
    importCsv(ward.pool, `${sheet}${mine.join('\n')}\n`, people),
    ...beds.map(async (bed) => {
      for (const step of exchange(bed, now - 3 * HOUR_MS, null)) await mustAppend(ward, ward.actors.nurse, [step]);
    }),
  ]);
  expect(imported).toMatchObject({ imported: { added: 2394, patients: 28 } });
  expect((await verify(ward.pool, SITE)).faults).toEqual([]);
  const { rows } = await ward.pool.query(
    `SELECT ward_id, max(position) - count(*)::integer AS missing FROM entry GROUP BY ward_id`,
  );
  expect(rows.every(({ missing }) => missing === 0)).toBe(true);
  const before = await foldedText(ward.pool);
  await rebuild(ward.pool, createPolicies(), SITE);
  expect(await foldedText(ward.pool)).toBe(before);
});

describe('rows that are wrong', () => {
  test('are named by line and column, all of them counted, and nothing comes in', async () => {
    expect(
      await words(
        sheetOf(
          line({ drain: ['08:00', '08:20'], drainedMl: '21oo' }),
          line({ drain: ['12:00', '12:20'], fill: ['12:25', '12:35'], filledMl: '50000' }),
          line({ drain: ['17:00', '17:20'], appearance: 'murky' }),
          line({ drain: ['2026-10-05T20:00', '20:20'] }),
          line({ drain: ['2099-10-05T20:00Z', '2099-10-05T20:20Z'] }),
          line({ drain: ['22:20', '22:00'] }),
          line({}),
          `${WARD},${number}`,
        ),
      ),
    ).toEqual([
      '2 drained_ml: is not a whole number of mL',
      '3 filled_ml: is outside the allowed range',
      '4 appearance: is not an appearance',
      '5 drain_start: is not a date and time with its offset',
      '6 drain_start: lies in the future',
      '6 drain_end: lies in the future',
      '7 drain_end: lies before the time to its left',
      '8 drain_end: is missing, and so is fill_end',
      '9 line: has 2 fields',
    ]);
  });

  test('beyond the first thousand are counted, not listed', async () => {
    const bad = Array.from({ length: 1234 }, () => line({ drain: ['08:00', '08:20'], drainedMl: '-1' }));
    const { bad: found, rows } = await wrongWith(sheetOf(...bad));
    expect([rows, found.count, found.listed.length, found.listed.at(-1)?.line]).toEqual([1234, 1234, 1000, 1001]);
    const strangers = Array.from({ length: 1234 }, (_, index) =>
      line({ number: `nobody ${index}`, fill: ['08:00', '08:10'] }),
    );
    const unknown = await wrongWith(sheetOf(...strangers));
    expect([unknown.bad.count, unknown.bad.listed.length]).toEqual([1234, 1000]);
  });

  test('name what is not known here: ward, patient, solution', async () => {
    const { bad } = await wrongWith(
      sheetOf(
        line({ ward: 'nowhere', fill: ['08:00', '08:10'] }),
        line({ number: 'ZZ 1', fill: ['08:00', '08:10'] }),
        line({ drain: ['12:00', '12:20'], fill: ['12:25', '12:35'], solution: 'glucose-9' }),
      ),
    );
    expect(bad.listed.map(({ line, column, value }) => [line, column, value])).toEqual([
      [2, 'ward', 'nowhere'],
      [3, 'hospital_number', 'ZZ 1'],
      [4, 'solution', 'glucose-9'],
    ]);
    expect(bad.listed[2]?.allowed).toContain('glucose-1.36, glucose-2.27, glucose-3.86, icodextrin-7.5');
  });

  test('overlap another row of the same patient', async () => {
    expect(
      await words(
        sheetOf(line({ drain: ['08:00', '08:20'], fill: ['08:25', '08:40'] }), line({ drain: ['08:30', '08:50'] })),
      ),
    ).toEqual(['3 drain_start: overlaps line 2']);
  });

  test('stand twice in the file', async () => {
    const twice = line({ drain: ['08:00', '08:20'] });
    expect(await words(sheetOf(twice, twice))).toEqual(['3 drain_start: overlaps line 2']);
  });

  test('fill a cavity that was not drained', async () => {
    expect(await words(sheetOf(line({ fill: ['08:00', '08:10'] }), line({ fill: ['12:00', '12:10'] })))).toEqual([
      '3 fill_start: fills a cavity whose fluid was not drained',
    ]);
  });

  test('name a ward other than the one that is imported into', async () => {
    const { bad } = await wrongWith(sheetOf(line({ ward: OTHER_WARD, fill: ['08:00', '08:10'] })), null, WARD);
    expect(bad.listed[0]).toMatchObject({ line: 2, column: 'ward', value: OTHER_WARD, allowed: WARD });
  });
});

describe('rows that contradict the record', () => {
  test('say something else of an exchange that was imported before', async () => {
    await importCsv(ward.pool, sheetOf(line({ drain: ['08:00', '08:20'], drainedMl: '2100' })));
    expect(await words(sheetOf(line({ drain: ['08:00', '08:20'], drainedMl: '2110' })))).toEqual([
      '2 drain_start: contradicts what is recorded from 2026-10-05T08:00Z',
    ]);
    expect(await words(sheetOf(line({ drain: ['07:50', '08:10'] })))).toEqual([
      '2 drain_start: contradicts what is recorded from 2026-10-05T08:00Z',
    ]);
  });

  test('do not once that row was retracted', async () => {
    const patientId = await patient(ward.pool);
    const of = { number: await numberOf(patientId), drain: ['08:00', '08:20'] as const };
    await mustAppend(ward, ward.actors.charge, [
      draft(
        'admitted',
        { bed: '9', inside: { cavity: 'empty' }, dialysis: 'chronic' },
        {
          patientId,
          happenedAt: Date.now() - HOUR_MS,
        },
      ),
    ]);
    await importCsv(ward.pool, sheetOf(line({ ...of, drainedMl: '2100' })));
    const { rows } = await ward.pool.query(`SELECT id FROM entry WHERE patient_id = $1 AND kind = 'imported'`, [
      patientId,
    ]);
    const retraction = { target: rows[0].id, reason: 'read wrongly', enteredAs: null };
    await mustAppend(ward, ward.actors.charge, [draft('retracted', retraction, { patientId, happenedAt: Date.now() })]);
    const right = sheetOf(line({ ...of, drainedMl: '2110' }));
    expect(await importCsv(ward.pool, right)).toMatchObject({ imported: { added: 1 } });
  });

  test('lie in a recorded visit, span an admission, or say what is inside now', async () => {
    const now = Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS;
    const bed = await inBed(ward, '2', now - 10 * HOUR_MS);
    await mustAppend(ward, ward.actors.nurse, exchange(bed, now - 3 * HOUR_MS, null));
    const of = await numberOf(bed.patientId);
    const iso = (ms: number) => `${new Date(ms).toISOString().slice(0, 16)}Z`;
    const at = (hours: number, minutes: number) => iso(now - hours * HOUR_MS + minutes * MINUTE_MS);
    expect(
      await words(
        sheetOf(
          line({ number: of, drain: [at(10, -10), at(10, 5)] }),
          line({ number: of, drain: [at(3, 10), at(3, 25)] }),
          line({ number: of, drain: [at(1, 0), at(1, 20)] }),
        ),
      ),
    ).toEqual([
      '2 drain_start: spans the beginning of a recorded stay',
      `3 drain_start: contradicts what is recorded to ${at(3, 30)}`,
      '4 drain_end: is not the past: since then the bedside holds what is inside now; enter it there as a missed exchange',
    ]);
  });

  test('leave a recorded fill no empty cavity', async () => {
    const now = Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS;
    const bed = await inBed(ward, '3', now - 10 * HOUR_MS);
    const steps = exchange(bed, now - 3 * HOUR_MS, null);
    await mustAppend(ward, ward.actors.nurse, steps);
    const of = await numberOf(bed.patientId);
    const iso = (hours: number, minutes: number) =>
      `${new Date(now - hours * HOUR_MS + minutes * MINUTE_MS).toISOString().slice(0, 16)}Z`;
    // admitted with two litres inside; a fill without a drain would make four
    expect(await words(sheetOf(line({ number: of, fill: [iso(6, 0), iso(6, 10)] })))).toEqual([
      '2 fill_start: fills a cavity whose fluid was not drained',
    ]);
    const missed = line({ number: of, drain: [iso(6, 0), iso(6, 20)], fill: [iso(6, 25), iso(6, 35)] });
    expect(await importCsv(ward.pool, sheetOf(missed))).toMatchObject({ imported: { added: 1 } });
  });
});

describe('a patient on the ward', () => {
  test('has history before the admission, and no alert of it, whoever sweeps', async () => {
    const now = Date.now();
    const patientId = await patient(ward.pool);
    await mustAppend(ward, ward.actors.charge, [
      draft(
        'admitted',
        { bed: '4', inside: { cavity: 'empty' }, dialysis: 'chronic' },
        {
          patientId,
          happenedAt: now - 10 * MINUTE_MS,
        },
      ),
    ]);
    await mustAppend(ward, ward.actors.physician, [prescribed(patientId, now - 9 * MINUTE_MS)]);
    const of = await numberOf(patientId);
    const rows = [
      line({ number: of, fill: ['08:00', '08:10'] }),
      line({ number: of, drain: ['12:00', '12:20'], drainedMl: '900', appearance: 'cloudy', fill: ['12:25', '12:35'] }),
      line({ number: of, drain: ['17:00', '17:20'], appearance: 'bloody' }),
    ];
    await importCsv(ward.pool, sheetOf(...rows));
    await sweep(ward.pool, createPolicies(), SITE);
    const alerts = await ward.pool.query('SELECT kind FROM alert WHERE patient_id = $1', [patientId]);
    expect(alerts.rows).toEqual([]);
    const { rows: state } = await ward.pool.query(
      `SELECT ward_id, state->'cavity'->>'state' AS cavity, version FROM bedside WHERE patient_id = $1`,
      [patientId],
    );
    // admission, prescription, three rows; what is inside is what the admission said
    expect(state).toEqual([{ ward_id: WARD, cavity: 'empty', version: 5 }]);
    const before = await foldedText(ward.pool);
    await rebuild(ward.pool, createPolicies(), SITE);
    expect(await foldedText(ward.pool)).toBe(before);
  });

  test('takes an entry right after the import, as after any other', async () => {
    const now = Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS;
    const bed = await inBed(ward, '5', now - 10 * HOUR_MS);
    await importCsv(ward.pool, sheetOf(line({ number: await numberOf(bed.patientId), drain: ['08:00', '08:20'] })));
    await mustAppend(ward, ward.actors.nurse, exchange(bed, now - HOUR_MS, null));
    expect((await verify(ward.pool, SITE)).faults).toEqual([]);
  });
});

describe('people', () => {
  const HEAD = 'hospital_number,family,given,date_of_birth,gender';
  const people = (...lines: readonly string[]) => `${[HEAD, ...lines].join('\n')}\n`;

  test('are made known from their file, never from the sheet alone', async () => {
    const sheet = sheetOf(line({ number: 'NEW 1', fill: ['08:00', '08:10'] }));
    expect(await words(sheet)).toEqual([expect.stringMatching(/^2 hospital_number: is nobody's/)]);
    const result = await importCsv(ward.pool, sheet, people('NEW 1,Person,Invented,1950-02-28,female'));
    expect(result).toMatchObject({ imported: { added: 1, peopleAdded: 1 } });
  });

  test('who are known otherwise are not written over', async () => {
    const refused = await wrongWith(sheetOf(), people(`${number},Somebody,Else,1950-02-28,female`));
    expect(refused.otherPeople).toEqual([number]);
  });

  test('are not made where the sheet is bad', async () => {
    await wrongWith(
      sheetOf(line({ number: 'NEW 2', fill: ['08:00', '08:10'], filledMl: '0' })),
      people('NEW 2,Person,Invented,1950-02-28,female'),
    );
  });

  test('need every field', async () => {
    const { people: problems } = await wrongWith(
      sheetOf(),
      people('NEW 3,,Invented,1950-02-30,female', 'NEW 3,Person,Invented,1950-02-28,female'),
    );
    expect(problems.map(({ line, column }) => `${line} ${column}`)).toEqual([
      '2 family',
      '2 date_of_birth',
      '3 hospital_number',
    ]);
  });
});

describe('a file that is no sheet', () => {
  test.each([
    ['nothing at all', '', /empty/],
    ['a column that is missing', HEADER.replace(',note', ''), /lacks note/],
    ['a column that is not known', `${HEADER},weight`, /"weight"/],
    ['a column twice', `${HEADER},note`, /"note"/],
    ['a quote in the middle of a field', `${HEADER}\n${WARD},a"b,,,,,,,,,\n`, /Line 2: a quote/],
    ['a quote that is never closed', `${HEADER}\n${WARD},"a\n${'x,\n'.repeat(20_000)}`, /never closed/],
  ])('%s', async (_, sheet, message) => {
    const error = await importCsv(ward.pool, sheet).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(SheetError);
    expect((error as Error).message).toMatch(message);
    expect((await counts(ward.pool)).staged).toBe(0);
  });

  test('bytes that are not UTF-8, by their line', async () => {
    const latin = Buffer.concat([Buffer.from(`${HEADER}\n${ordinary()[0]}\n${WARD},Fran`), Buffer.from([0xe7, 0x0a])]);
    await expect(importCsv(ward.pool, latin)).rejects.toThrow('Line 3 is not UTF-8');
  });
});
