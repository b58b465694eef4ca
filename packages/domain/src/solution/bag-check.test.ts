import { describe, expect, it } from 'vitest';
import { checkBag, stops } from './bag-check.ts';
import { STANDARD_FORMULARY } from './formulary.ts';
import type { BagInHand } from './solution.ts';

const bag: BagInHand = {
  solutionId: 'glucose-2.27',
  labelledMl: 2000,
  expiresOn: '2027-02-28',
  lot: null,
  read: 'typed',
};
const wanted = { solutionId: 'glucose-2.27', fillMl: 2000 };
const check = (change: Partial<BagInHand>, want = wanted, today = '2026-11-25') =>
  checkBag({ ...bag, ...change }, want, STANDARD_FORMULARY, today);
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
});
