import { kestrelMonth } from '@slackwater/api/demo/month';
import { createPolicies } from '@slackwater/api/record/policies';
import { rebuild } from '@slackwater/api/record/rebuild';
import { verify } from '@slackwater/api/record/verify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { counts, dayBalance, foldedText, type ImportWard, importCsv, month, openImportWard } from './import-ward.ts';
import { SITE, WARD } from './record-ward.ts';

let ward: ImportWard;
let first: Awaited<ReturnType<typeof importCsv>>;
beforeAll(async () => {
  ward = await openImportWard();
  const { sheet, people } = await month();
  first = await importCsv(ward.pool, sheet, people);
});
afterAll(() => ward.close());

test('the shipped month is what its seeded script writes', async () => {
  expect(await month()).toEqual(kestrelMonth());
});

test('the whole month comes in, for people of whom nothing was known', async () => {
  const lines = (await month()).sheet.trimEnd().split('\n').length - 1;
  expect(first).toEqual({ imported: { rows: lines, added: lines, known: 0, patients: 24, peopleAdded: 24 } });
  expect(await counts(ward.pool)).toMatchObject({ entries: lines, payloads: lines, patients: 24, staged: 0 });
});

// The additions are written out from the lines of shared/scenario/kestrel-month.csv: what came out of each drain that
// ended in the ward day (07:00 to 07:00, Europe/London), less what the fill before it had put in.
type Day = { removedMl: number; exchanges: number; missing?: readonly string[] };
const DAYS: Record<string, Day> = {
  'AP 300101 2026-10-09, an ordinary day': {
    removedMl: 2170 - 2000 + (1900 - 2000) + (2150 - 2000) + (2510 - 2000),
    exchanges: 4,
  },
  'AP 300101 2026-10-01, what came with the patient: a fill of which nothing is known': {
    removedMl: 2240 - 2000 + (2010 - 2000) + (2620 - 2000),
    exchanges: 4,
    missing: ['fill 2026-10-01T06:49:00.000Z'],
  },
  'AP 300101 2026-10-08, a drain without a volume': {
    removedMl: 2280 - 2000 + (1940 - 2000) + (2310 - 2000),
    exchanges: 4,
    missing: ['drain 2026-10-08T11:43:00.000Z'],
  },
  'AP 300101 2026-10-31, the last drain without a fill after it': {
    removedMl: 2210 - 2000 + (2070 - 2000) + (1880 - 2000) + (2210 - 2000),
    exchanges: 4,
  },
  'AP 300118 2026-10-11, before a drain across 07:00': {
    removedMl: 2910 - 2000 + (2130 - 2000) + (2070 - 2000) + (2430 - 2000),
    exchanges: 4,
  },
  'AP 300118 2026-10-12, drained 06:41 to 07:06: this day; and 06:20 to 06:44 of the next date: this day too': {
    removedMl: 2310 - 2000 + (2000 - 2000) + (2080 - 2000) + (2210 - 2000) + (2450 - 2000),
    exchanges: 5,
  },
  'AP 300118 2026-10-13, whose first drain counted the day before': {
    removedMl: 2150 - 2000 + (2220 - 2000) + (2510 - 2000),
    exchanges: 3,
  },
  'AP 300126 2026-10-24, of 25 hours: 06:35 in winter time still belongs to it': {
    removedMl: 2870 - 2500 + (2720 - 2500) + (2400 - 2500) + (2560 - 2500) + (2840 - 2500),
    exchanges: 5,
  },
  'AP 300126 2026-10-25, after the clocks went back': {
    removedMl: 2590 - 2500 + (2600 - 2500) + (2810 - 2500),
    exchanges: 3,
  },
  'AP 300133 2026-10-17, icodextrin overnight, then two cloudy drains': {
    removedMl: 2530 - 2000 + (2020 - 2000) + (1930 - 2000),
    exchanges: 3,
  },
  'AP 300157 2026-10-05, dry at night, one drain retained': {
    removedMl: 2410 - 2000 + (1920 - 2000),
    exchanges: 2,
  },
  'AP 300164 2026-10-20, a fill without a volume': {
    removedMl: 1630 - 1500 + (1620 - 1500) + (1640 - 1500),
    exchanges: 4,
    missing: ['fill 2026-10-20T21:55:00.000Z'],
  },
  'AP 300195 2026-10-11, icodextrin after glucose': {
    removedMl: 3320 - 2500 + (2600 - 2500) + (2540 - 2500) + (2730 - 2500),
    exchanges: 4,
  },
  'AP 300226 2026-10-19, the last day of a stay': {
    removedMl: 1800 - 1500 + (1590 - 1500) + (1550 - 1500),
    exchanges: 3,
  },
  'AP 300226 2026-10-20, gone home': { removedMl: 0, exchanges: 0 },
  'AP 300335 2026-10-17, begun with a fill': {
    removedMl: 2550 - 2500 + (2690 - 2500) + (2510 - 2500),
    exchanges: 3,
  },
};

describe('the balance of a ward day', () => {
  for (const [name, { removedMl, exchanges, missing = [] }] of Object.entries(DAYS)) {
    const [hospitalNumber, date] = [name.slice(0, 9), name.slice(10, 20)];
    test(name, async () => {
      expect(await dayBalance(ward.pool, hospitalNumber, date)).toEqual({ removedMl, exchanges, missing });
    });
  }
});

test('every drained and every filled mL of the sheet is in a dwell, none twice', async () => {
  const fields = (await month()).sheet
    .split('\n')
    .slice(1, -1)
    .map((line) => line.split(','));
  const sum = (column: number) => fields.reduce((ml, cells) => ml + Number(cells[column] || 0), 0);
  const { rows } = await ward.pool.query(
    `SELECT sum((drain->>'drainedMl')::float8) AS "drainedMl" FROM dwell, jsonb_array_elements(content->'drains') AS drain`,
  );
  expect(rows[0].drainedMl).toBe(sum(4));
  const fills = await ward.pool.query(
    `SELECT (SELECT sum((fill->>'filledMl')::float8) FROM dwell, jsonb_array_elements(content->'fills') AS fill) AS drained,
      (SELECT sum((fill->>'filledMl')::float8) FROM bedside, json_array_elements(state->'cavity'->'fills') AS fill
        WHERE NOT EXISTS (SELECT FROM dwell WHERE dwell.id = fill->>'entryId')) AS inside`,
  );
  expect(fills.rows[0].drained + (fills.rows[0].inside ?? 0)).toBe(sum(8));
});

test('the chain holds, position by position', async () => {
  const { wards, faults } = await verify(ward.pool, SITE);
  expect(faults).toEqual([]);
  const { entries } = await counts(ward.pool);
  expect(wards.find(({ wardId }) => wardId === WARD)?.position).toBe(entries);
});

test('a rebuild finds the same state again', async () => {
  const before = await foldedText(ward.pool);
  await rebuild(ward.pool, createPolicies(), SITE);
  expect(await foldedText(ward.pool)).toBe(before);
});

test('the same file twice changes nothing', async () => {
  const before = [await counts(ward.pool), await foldedText(ward.pool)];
  const { sheet, people } = await month();
  const again = await importCsv(ward.pool, sheet, people);
  expect(again).toMatchObject({ imported: { added: 0, patients: 0, peopleAdded: 0 } });
  expect([await counts(ward.pool), await foldedText(ward.pool)]).toEqual(before);
});

test('nor does it in another order of lines and columns, with CRLF and a byte order mark', async () => {
  const before = [await counts(ward.pool), await foldedText(ward.pool)];
  const [header = '', ...lines] = (await month()).sheet.trimEnd().split('\n');
  const noQuotes = lines.filter((line) => !line.includes('"'));
  const turned = [header, ...noQuotes.reverse()].map((line) => line.split(',').reverse().join(','));
  const again = await importCsv(ward.pool, `\uFEFF${turned.join('\r\n')}\r\n`);
  expect(again).toMatchObject({ imported: { rows: noQuotes.length, added: 0, known: noQuotes.length } });
  expect([await counts(ward.pool), await foldedText(ward.pool)]).toEqual(before);
});

test('history raises no alert: cloudy and short drains of the past are only read', async () => {
  const { rows } = await ward.pool.query('SELECT count(*)::integer AS alerts FROM alert');
  expect(rows[0].alerts).toBe(0);
  const entries = await ward.pool.query(`SELECT DISTINCT kind FROM entry`);
  expect(entries.rows).toEqual([{ kind: 'imported' }]);
});
