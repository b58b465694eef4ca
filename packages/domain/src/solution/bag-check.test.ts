import { describe, expect, it } from 'vitest';
import { at, LONDON } from '../testing/bedside.ts';
import { checkBag, stops } from './bag-check.ts';
import type { BagInHand } from './solution.ts';
import { type LotRecall, NO_SUPPLIES, type Supplies } from './supplies.ts';

const bag: BagInHand = {
  solutionId: 'glucose-2.27',
  labelledMl: 2000,
  expiresOn: '2027-02-28',
  lot: null,
  read: 'typed',
};
const wanted = { solutionId: 'glucose-2.27', fillMl: 2000 };
const NOON = at('2026-11-25T12:00:00Z');
const check = (change: Partial<BagInHand>, want = wanted, supplies = NO_SUPPLIES) =>
  checkBag({ ...bag, ...change }, want, { ...LONDON, supplies }, NOON);
const verdicts = (...args: Parameters<typeof check>) => check(...args).map((row) => row.verdict);

describe('the bag in the hand beside what is prescribed', () => {
  it('is the same and in date', () => {
    expect(verdicts({})).toEqual(['same', 'same', 'inDate']);
    expect(check({}).some(stops)).toBe(false);
  });
  it('of another strength stops', () => {
    expect(check({ solutionId: 'glucose-3.86' })[0]).toMatchObject({
      verdict: 'different',
      wanted: '2.5 % dextrose (2.27 % glucose)',
      inHand: '4.25 % dextrose (3.86 % glucose)',
    });
    expect(check({ solutionId: 'glucose-3.86' }).some(stops)).toBe(true);
  });
  it('of the same strength but another buffer is different', () => {
    expect(verdicts({ solutionId: 'bicarbonate-glucose-2.27' })[0]).toBe('different');
  });
  it('that the ward does not keep is different, never passed over', () => {
    expect(verdicts({ solutionId: 'from-elsewhere' })[0]).toBe('different');
    expect(verdicts({ solutionId: 'gone' }, { ...wanted, solutionId: 'gone' })[0]).toBe('unknown');
  });
  it('that is larger says where to stop', () => {
    expect(check({}, { ...wanted, fillMl: 1000 })[1]).toMatchObject({ verdict: 'larger', say: 'Stop at 1,000 mL.' });
  });
  it('that is too small stops', () => {
    const row = check({ labelledMl: 1500 })[1]!;
    expect(row).toMatchObject({ verdict: 'tooSmall', say: '500 mL less than prescribed.' });
    expect(stops(row)).toBe(true);
  });
  it.each([
    ['2026-11-24', 'expired'],
    ['2026-11-25', 'inDate'],
    [null, 'unknown'],
  ])('with expiry %s on 25-Nov-2026: %s', (expiresOn, verdict) => {
    expect(verdicts({ expiresOn })[2]).toBe(verdict);
  });

  const GTIN = '09521234543213';
  const recall = (of: LotRecall['of'], change: Partial<LotRecall> = {}): Supplies => ({
    products: [],
    recalls: [{ id: 'r', lot: 'AB 123', of, reason: 'leaks', since: NOON - 1, ended: null, ...change }],
  });
  const ofSolution = recall({ solutionId: 'glucose-2.27' });
  const lotVerdict = (change: Partial<BagInHand>, supplies: Supplies) => check(change, wanted, supplies)[3]?.verdict;

  it('of a recalled lot stops, however the lot is written', () => {
    expect(lotVerdict({ lot: 'ab123' }, ofSolution)).toBe('recalled');
    expect(check({ lot: 'ab123' }, wanted, ofSolution).some(stops)).toBe(true);
    expect(lotVerdict({ lot: 'AB124' }, ofSolution)).toBe('notRecalled');
    expect(lotVerdict({ lot: 'AB123' }, recall({ solutionId: 'glucose-1.36' }))).toBe('notRecalled');
  });
  it('whose lot nobody read stops while a lot of its solution is recalled, and only then', () => {
    expect(check({ lot: null }, wanted, ofSolution)[3]).toMatchObject({ verdict: 'unread', inHand: 'not read' });
    expect(lotVerdict({ lot: null }, recall({ solutionId: 'glucose-1.36' }))).toBeUndefined();
  });
  it('is used again once the recall ended, and was rightly used before it began', () => {
    expect(lotVerdict({ lot: 'AB123' }, recall({ solutionId: 'glucose-2.27' }, { since: NOON + 1 }))).toBe(
      'notRecalled',
    );
    const ended = { at: NOON, reason: 'tested' };
    expect(lotVerdict({ lot: 'AB123' }, recall({ solutionId: 'glucose-2.27' }, { ended }))).toBe('notRecalled');
  });
  it('of a recalled product is known by its code; a typed one by its lot, since its code is not known', () => {
    const ofProduct = recall({ gtin: GTIN });
    const scanned = { read: 'scanned', lot: 'AB123' } as const;
    expect(lotVerdict({ ...scanned, label: `01${GTIN}10AB123` }, ofProduct)).toBe('recalled');
    expect(lotVerdict({ ...scanned, label: '010952123454322010AB123' }, ofProduct)).toBe('notRecalled');
    expect(lotVerdict({ lot: 'AB123' }, ofProduct)).toBe('recalled');
    const product = { gtin: GTIN, solutionId: 'glucose-1.36', labelledMl: 2000 };
    expect(lotVerdict({ lot: 'AB123' }, { ...ofProduct, products: [product] })).toBe('notRecalled');
  });
});
