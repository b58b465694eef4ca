import type { BagInHand, WardPolicy } from '@slackwater/domain';
import { at, LONDON } from '@slackwater/domain/testing/bedside';
import { describe, expect, it } from 'vitest';
import { stopsSince } from './stops-since.ts';

// Expected: what a nurse would say of the bag at each time (common practice).

const WANTED = { solutionId: 'glucose-2.27', fillMl: 2000 };
const BAG: BagInHand = { ...WANTED, labelledMl: 2000, expiresOn: '2026-11-25', lot: 'A1', read: 'typed' };
const checkedAt = at('2026-11-25T23:50Z');
const verdicts = (policy: WardPolicy, bag: BagInHand, now: string) =>
  stopsSince(bag, WANTED, policy, { checkedAt, now: at(now) }).map(({ verdict }) => verdict);

describe('a bag that was checked before', () => {
  it('stops once its last day is over, in the ward’s zone, and not before', () => {
    expect(verdicts(LONDON, BAG, '2026-11-25T23:59Z')).toEqual([]);
    expect(verdicts(LONDON, BAG, '2026-11-26T00:00Z')).toEqual(['expired']);
  });
  it('stops once its lot is recalled', () => {
    const recall = {
      id: 'recall',
      lot: 'a1',
      of: { solutionId: BAG.solutionId },
      reason: 'leaks at the port',
      since: at('2026-11-25T23:55Z'),
      ended: null,
    };
    const supplies = { ...LONDON.supplies, recalls: [recall] };
    expect(verdicts({ ...LONDON, supplies }, BAG, '2026-11-25T23:54Z')).toEqual([]);
    expect(verdicts({ ...LONDON, supplies }, BAG, '2026-11-25T23:56Z')).toEqual(['recalled']);
  });
  it('is not stopped anew by what was let through with the check', () => {
    expect(verdicts(LONDON, { ...BAG, expiresOn: '2026-11-24' }, '2026-11-26T00:10Z')).toEqual([]);
  });
});
