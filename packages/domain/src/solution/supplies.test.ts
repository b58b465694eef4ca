import { describe, expect, it } from 'vitest';
import { STANDARD_FORMULARY } from './formulary.ts';
import { NO_SUPPLIES, productOf, recallsAt, type Supplies, type SupplyChange, withSupplyChange } from './supplies.ts';

const GTIN = '09521234543213';
const listed: SupplyChange = {
  what: 'productListed',
  product: { gtin: GTIN, solutionId: 'glucose-2.27', labelledMl: 2000 },
};
const recalled: SupplyChange = { what: 'lotRecalled', lot: 'AB123', of: { gtin: GTIN }, reason: 'leaks' };
const change = (supplies: Supplies, by: SupplyChange, at = 1000) =>
  withSupplyChange(supplies, by, { id: `entry-${at}`, at }, STANDARD_FORMULARY);
const after = (...changes: SupplyChange[]): Supplies =>
  changes.reduce((supplies, one, index) => change(supplies, one, 1000 * (index + 1)).supplies, NO_SUPPLIES);
const codes = (supplies: Supplies, by: SupplyChange) => change(supplies, by).problems.map(({ code }) => code);

describe('products', () => {
  it('are listed, found by their code, and dropped with a reason', () => {
    expect(productOf(after(listed), GTIN)).toEqual({ gtin: GTIN, solutionId: 'glucose-2.27', labelledMl: 2000 });
    expect(after(listed, { what: 'productDropped', gtin: GTIN, reason: 'read wrong' })).toEqual(NO_SUPPLIES);
    expect(productOf(after(listed), '09521234543220')).toBeNull();
  });
  it.each<[Partial<{ gtin: string; solutionId: string; labelledMl: number }>, string]>([
    [{ gtin: '09521234543214' }, 'gtin'],
    [{ gtin: '9521234543213' }, 'gtin'],
    [{ solutionId: 'water' }, 'unknown-solution'],
    [{ labelledMl: 1999 }, 'bag-size'],
  ])('with %j are refused: %s', (part, code) => {
    expect(codes(NO_SUPPLIES, { ...listed, product: { ...listed.product, ...part } })).toEqual([code]);
  });
  it('are one thing: a code that is listed is not listed anew as another', () => {
    const other = { ...listed.product, solutionId: 'glucose-3.86' };
    expect(codes(after(listed), { what: 'productListed', product: other })).toEqual(['product-listed']);
    expect(change(after(listed), { what: 'productListed', product: other }).supplies).toEqual(after(listed));
  });
});

describe('recalls', () => {
  it('hold from when they were said until they are ended with a reason', () => {
    const supplies = after(recalled, { what: 'recallEnded', recallId: 'entry-1000', reason: 'tested' });
    expect([999, 1000, 1999, 2000].map((at) => recallsAt(supplies, at).length)).toEqual([0, 1, 1, 0]);
  });
  it('need a lot that can be one, a reason, and are said once', () => {
    expect(codes(NO_SUPPLIES, { ...recalled, lot: 'A B' })).toEqual(['lot']);
    expect(codes(NO_SUPPLIES, { ...recalled, reason: ' ' })).toEqual(['missing']);
    expect(codes(NO_SUPPLIES, { ...recalled, of: { solutionId: 'water' } })).toEqual(['unknown-solution']);
    expect(codes(after(recalled), { ...recalled, lot: 'ab123' })).toEqual(['recalled-already']);
    expect(codes(NO_SUPPLIES, { what: 'recallEnded', recallId: 'x', reason: 'tested' })).toEqual(['recall-unknown']);
  });
});
