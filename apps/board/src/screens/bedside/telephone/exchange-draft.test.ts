import type { Additive } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { policyIn } from '@slackwater/domain/testing/bedside';
import { describe, expect, it } from 'vitest';
import { exchangeDraft, readBackWords, readExchange, withChange } from './exchange-draft.ts';
import { telephoneActs } from './telephone-acts.ts';

const policy = policyIn('Europe/London', {});
const VANCOMYCIN: Additive = {
  what: 'vancomycin',
  amount: 1,
  unit: 'g',
  kind: 'antibiotic',
  minimumDwellMinutes: 360,
};
const wanted = (change: Partial<NextBag> = {}): NextBag => ({
  solutionId: 'glucose-2.27',
  fillMl: 2000,
  additives: [],
  dwellMinutes: 270,
  revisionId: 'revision',
  itemId: 'item',
  orderId: null,
  ...change,
});
const BAG = { solutionId: 'glucose-1.36', fillMl: 1500 };
const said = (of: NextBag, part: Parameters<typeof withChange>[1] = {}) => ({
  ...withChange(exchangeDraft(of), part),
  physician: 'Dr Imre Solberg',
  readBack: true,
});

describe('an order by telephone', () => {
  it('carries the prescribed dwell over, where it can be seen and changed', () => {
    const of = wanted();
    expect(exchangeDraft(of).dwell).toBe('4 h 30 min');
    expect(readExchange(said(of), of, BAG, policy).payload?.content).toMatchObject({
      fillMl: 1500,
      dwellMinutes: 270,
    });
    expect(readExchange(said(of, { dwell: '6 h' }), of, BAG, policy).payload?.content).toMatchObject({
      dwellMinutes: 360,
    });
    expect(readExchange(said(of, { dwell: '' }), of, BAG, policy).missing).toBe('missing: the dwell');
    expect(readExchange(said(of, { dwell: '5' }), of, BAG, policy).missing).toBe('missing: the dwell');
  });

  it('by the clock stays by the clock, and says so', () => {
    const of = wanted({ dwellMinutes: null });
    expect(readExchange(said(of), of, BAG, policy).payload?.content).toMatchObject({ dwellMinutes: null });
    expect(readBackWords(exchangeDraft(of), of, BAG, policy)).toBe(
      '1,500 mL of 1.5 %, to dwell by the clock as prescribed, nothing added',
    );
  });

  it('says of what was prescribed into the bag whether it is kept, and nobody chooses for the physician', () => {
    const of = wanted({ additives: [VANCOMYCIN], dwellMinutes: 480 });
    expect(readExchange(said(of), of, BAG, policy).missing).toBe('missing: whether the additives are kept');
    const kept = readExchange(said(of, { additives: 'kept' }), of, BAG, policy).payload;
    expect(kept).toMatchObject({ content: { additives: [VANCOMYCIN] }, note: null });
    const leftOut = readExchange(said(of, { additives: 'leftOut' }), of, BAG, policy).payload;
    expect(leftOut).toMatchObject({
      content: { additives: [] },
      note: 'Left out by this order: vancomycin 1 g.',
    });
    expect(readBackWords(said(of), of, BAG, policy)).toBe(
      '1,500 mL of 1.5 %, to dwell 8 h, vancomycin 1 g kept or left out?',
    );
    expect(readBackWords(said(of, { additives: 'leftOut' }), of, BAG, policy)).toBe(
      '1,500 mL of 1.5 %, to dwell 8 h, without vancomycin 1 g',
    );
  });

  it('with a dwell too short for what is kept is not entered', () => {
    const of = wanted({ additives: [VANCOMYCIN] });
    expect(readExchange(said(of, { additives: 'kept' }), of, BAG, policy).missing).toContain(
      'vancomycin must dwell 6 h at the least',
    );
  });

  it('is read back anew once anything of it is changed', () => {
    const of = wanted({ additives: [VANCOMYCIN] });
    expect(withChange(said(of), { dwell: '6 h' }).readBack).toBe(false);
    expect(withChange(said(of), { additives: 'kept' }).readBack).toBe(false);
    expect(withChange(said(of), { note: 'by the ward telephone' }).readBack).toBe(true);
  });

  it('ends the order that stood for the same exchange', () => {
    const of = wanted({ orderId: 'older' });
    const { payload } = readExchange(said(of), of, BAG, policy);
    expect(telephoneActs(payload!, of, 0).map(({ kind, payload: says }) => [kind, says])).toMatchObject([
      ['ordered', { telephone: { physician: 'Dr Imre Solberg' } }],
      ['orderEnded', { orderId: 'older', why: 'withdrawn' }],
    ]);
    expect(telephoneActs(payload!, wanted(), 0)).toHaveLength(1);
  });
});
