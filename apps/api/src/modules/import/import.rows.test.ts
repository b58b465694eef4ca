import { DEFAULT_SETTINGS } from '@slackwater/domain';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { COLUMNS, type RawRow } from './import.columns.ts';
import { readRow } from './import.rows.ts';

const NOW = Date.UTC(2026, 10, 25, 12);

const raw = (change: Partial<RawRow> = {}): RawRow => ({
  ward: 'kestrel',
  hospital_number: 'AP 1',
  drain_start: '2026-10-05T08:00+01:00',
  drain_end: '2026-10-05T08:20+01:00',
  drained_ml: '2150',
  appearance: 'clear',
  fill_start: '2026-10-05T08:25+01:00',
  fill_end: '2026-10-05T08:35+01:00',
  filled_ml: '2000',
  solution: 'glucose-1.36',
  note: '',
  ...change,
});

const read = (change: Partial<RawRow> = {}) => readRow('alder-point', raw(change), 2, DEFAULT_SETTINGS, NOW);
const wrong = (change: Partial<RawRow>) => read(change).problems.map(({ column }) => column);
const NO_DRAIN = { drain_start: '', drain_end: '', drained_ml: '', appearance: '' };
const NO_FILL = { fill_start: '', fill_end: '', filled_ml: '', solution: '' };

test('reads an exchange, its instants as epoch milliseconds', () => {
  expect(read().row).toMatchObject({
    startedAt: Date.UTC(2026, 9, 5, 7),
    endedAt: Date.UTC(2026, 9, 5, 7, 35),
    payload: { drainedMl: 2150, filledMl: 2000, appearance: ['clear'], solutionId: 'glucose-1.36', note: null },
  });
});

test('an empty volume is not known, and zero is zero', () => {
  expect(read({ drained_ml: '' }).row?.payload.drainedMl).toBeNull();
  expect(read({ drained_ml: '0' }).row?.payload.drainedMl).toBe(0);
});

test('the id is of the content: not of the line, the offset, or the order of the words', () => {
  const { row } = read({ appearance: 'cloudy+fibrin' });
  const same = { appearance: 'fibrin+cloudy', drain_start: '2026-10-05T07:00Z' };
  expect(readRow('alder-point', raw(same), 99, DEFAULT_SETTINGS, NOW).row?.id).toBe(row?.id);
  // RFC 9562, section 5.8: version 8, variant 10
  expect(row?.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(read({ drained_ml: '2160' }).row?.id).not.toBe(read().row?.id);
});

describe('refuses', () => {
  test.each([
    ['no ward', { ward: '' }, ['ward']],
    ['no patient', { hospital_number: '' }, ['hospital_number']],
    ['a time without its offset', { drain_start: '2026-10-05T08:00' }, ['drain_start']],
    ['a date that does not exist', { drain_start: '2026-06-31T08:00Z' }, ['drain_start']],
    ['a time to come', { fill_end: '2026-11-25T12:01Z' }, ['fill_end']],
    ['a century that was typed wrongly', { drain_start: '1926-10-05T08:00Z' }, ['drain_start']],
    ['a drain of a day and more', { drain_start: '2026-10-04T06:00Z' }, ['drain_end', 'fill_start', 'fill_end']],
    ['an end before its start', { drain_end: '2026-10-05T07:59+01:00' }, ['drain_end']],
    ['a drain without an end', { drain_end: '' }, ['drain_end']],
    ['a fill without a solution', { solution: '' }, ['solution']],
    ['a volume without a drain', { ...NO_DRAIN, drained_ml: '2000' }, ['drained_ml']],
    ['a look without a drain', { ...NO_DRAIN, appearance: 'clear' }, ['appearance']],
    ['a volume without a fill', { ...NO_FILL, filled_ml: '2000' }, ['filled_ml']],
    ['neither drain nor fill', { ...NO_DRAIN, ...NO_FILL }, ['drain_end']],
    ['litres', { drained_ml: '2.15' }, ['drained_ml']],
    ['a sign', { drained_ml: '-2150' }, ['drained_ml']],
    ['more than may be typed', { drained_ml: '6001' }, ['drained_ml']],
    ['a fill of nothing', { filled_ml: '0' }, ['filled_ml']],
    ['a word that is no appearance', { appearance: 'clear+murky' }, ['appearance']],
    ['a line break in a note', { note: 'two\nlines' }, ['note']],
    ['a note too long', { note: 'x'.repeat(501) }, ['note']],
  ])('%s', (_, change, columns) => {
    expect(wrong(change)).toEqual(columns);
    expect(read(change).row).toBeNull();
  });
});

test('answers with a row or with what is wrong, whatever stands in the fields', () => {
  const field = fc.oneof(fc.string(), fc.constantFrom(...Object.values(raw()), '', '0', '2026-10-05T25:00Z'));
  const rows = fc.record(Object.fromEntries(COLUMNS.map((column) => [column, field]))) as fc.Arbitrary<RawRow>;
  fc.assert(
    fc.property(rows, (one) => {
      const { row, problems } = readRow('alder-point', one, 2, DEFAULT_SETTINGS, NOW);
      expect(row === null).toBe(problems.length > 0);
      if (row !== null) expect(row.endedAt).toBeGreaterThanOrEqual(row.startedAt);
    }),
  );
});
