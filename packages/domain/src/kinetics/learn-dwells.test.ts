import { describe, expect, it } from 'vitest';
import type { FillInside } from '../cavity/cavity.ts';
import { deriveDwell } from '../dwell/derive.ts';
import type { DrainOut, Dwell } from '../dwell/dwell.ts';
import { STANDARD_FORMULARY } from '../solution/formulary.ts';
import { at, drainOf, dwellOf, fillOf, LONDON } from '../testing/bedside.ts';
import { HOUR_MS, MINUTE_MS } from '../time/instant.ts';
import { beginLearning } from './begin-learning.ts';
import { passOver } from './drain-estimator.ts';
import { drainKindOf } from './drain-kind.ts';
import { expectedDrain } from './expected-drain.ts';
import { learnDwells } from './learn-dwells.ts';

const ward = { residualMl: 200 };
const BEGIN = at('2026-11-01T08:00Z');

type Change = { fills?: readonly FillInside[]; drain?: Partial<DrainOut>; dwell?: Partial<Dwell> };

/** The nth dwell: 2,000 mL of 2.27 % for 4 h, drained 2,300 mL, with its sums as the record derives them. */
const nth = (n: number, { fills, drain, dwell }: Change = {}): Dwell => {
  const filledAt = BEGIN + n * 6 * HOUR_MS;
  const from = filledAt + 4 * HOUR_MS;
  const drains = [drainOf(from, from + 15 * MINUTE_MS, { drainedMl: 2300, appearance: ['clear'], ...drain })];
  const facts = dwellOf(drains, { id: `dwell ${n}`, fills: fills ?? [fillOf(filledAt)], ...dwell });
  return deriveDwell(facts, LONDON);
};
const many = (count: number, from = 0) => Array.from({ length: count }, (_, i) => nth(from + i));
const learn = (dwells: readonly Dwell[]) => learnDwells(dwells, STANDARD_FORMULARY, ward);
const kindOf = (fills: readonly FillInside[], startedAt: number) => drainKindOf(fills, startedAt, STANDARD_FORMULARY);

describe('learning from recorded dwells', () => {
  it('comes to expect what this patient drains, and says from how many', () => {
    const { estimator, passedOver } = learn(many(23));
    const kind = kindOf([fillOf(BEGIN)], BEGIN + 4 * HOUR_MS);
    if (typeof kind === 'string') throw new Error(kind);
    const { value } = expectedDrain(estimator, kind, ward);
    expect(passedOver).toEqual([]);
    expect(value).toMatchObject({ from: 23 });
    // The patient drains 2,300 mL each time.
    expect(Math.abs(value!.expectedMl - 2300)).toBeLessThan(20);
  });

  it('is the population’s for a new patient', () => {
    expect(learn([])).toEqual({ estimator: beginLearning(), passedOver: [] });
  });

  const filledAt = BEGIN + 30 * HOUR_MS;
  const two = (solutionId: string) => [
    fillOf(filledAt, { filledMl: 1000 }),
    fillOf(filledAt, { filledMl: 1000, solutionId }),
  ];
  const UNFIT: readonly [string, Change, string][] = [
    ['a drain still running', { drain: { flow: 'notStopped' } }, 'incomplete'],
    ['a short drain', { drain: { drainedMl: 900 } }, 'incomplete'],
    ['a cloudy drain', { drain: { appearance: ['cloudy', 'fibrin'] } }, 'appearance'],
    ['a bloody drain', { drain: { appearance: ['bloody'] } }, 'appearance'],
    ['a drain without volume', { drain: { drainedMl: null } }, 'volumeNotKnown'],
    ['a fill without volume', { fills: [fillOf(filledAt, { filledMl: null })] }, 'volumeNotKnown'],
    ['a drain of no fill', { fills: [] }, 'volumeNotKnown'],
    ['a fill of unknown time', { fills: [fillOf(filledAt, { endedAt: null })] }, 'timeNotKnown'],
    ['a fluid that is not kept', { fills: [fillOf(filledAt, { solutionId: 'else' })] }, 'solutionNotKnown'],
    ['two strengths', { fills: two('glucose-3.86') }, 'severalStrengths'],
    ['over 12 h of glucose', { fills: [fillOf(filledAt - 9 * HOUR_MS)] }, 'outsideModel'],
    ['over 3,500 mL', { fills: [fillOf(filledAt, { filledMl: 3600 })], drain: { drainedMl: 4000 } }, 'outsideModel'],
  ];
  it.each(UNFIT)('passes over %s', (_, change, because) => {
    const before = many(5);
    const { estimator, passedOver } = learn([...before, nth(5, change)]);
    expect(passedOver).toEqual([{ dwellId: 'dwell 5', because }]);
    expect(estimator).toEqual(passOver(learn(before).estimator));
  });

  it('passes over the drain after an incomplete one: it brings what was left', () => {
    const left = nth(1, { drain: { drainedMl: 900 } });
    const brought = nth(2, { drain: { drainedMl: 3600 } });
    const { estimator, passedOver } = learn([nth(0), left, brought, nth(3)]);
    expect(passedOver.map(({ because }) => because)).toEqual(['incomplete', 'afterIncomplete']);
    expect(estimator.drains).toBe(2);
  });

  it('learns from a short drain after which the cavity was confirmed empty', () => {
    const short = nth(0, {
      drain: { drainedMl: 1550 },
      dwell: { emptyConfirmed: { at: BEGIN + 5 * HOUR_MS, by: 'imaging' } },
    });
    expect(short.complete).toBe(false);
    expect(learn([short, nth(1)])).toMatchObject({ estimator: { drains: 2 }, passedOver: [] });
  });

  it('takes two fills of one strength as one dwell, of their mean length by volume', () => {
    const fills = [fillOf(BEGIN, { filledMl: 1500 }), fillOf(BEGIN + HOUR_MS, { filledMl: 500 })];
    // 1,500 mL for 240 min and 500 mL for 180 min: (1500·240 + 500·180) ÷ 2000 = 225 min.
    expect(kindOf(fills, BEGIN + 4 * HOUR_MS)).toMatchObject({ fillMl: 2000, dwellMinutes: 225 });
    expect(learn([nth(5, { fills: two('glucose-2.27') })]).estimator.drains).toBe(1);
  });
});
