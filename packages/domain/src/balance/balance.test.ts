import { describe, expect, it } from 'vitest';
import { at, drainOf, dwellOf } from '../testing/bedside.ts';
import { balanceOf, isComplete, otherFluidsMl, wholeBodyMl } from './balance.ts';
import { runningBalance } from './running.ts';
import { balanceWords } from './words.ts';

const dwell = (drainedAt: string, filledMl: number | null, drainedMl: number | null) =>
  dwellOf([drainOf(at(drainedAt) - 15 * 60_000, at(drainedAt))], {
    id: drainedAt,
    filledMl,
    drainedMl,
    drainMinusFillMl: filledMl === null || drainedMl === null ? null : drainedMl - filledMl,
  });

const DAY = [at('2026-11-25T07:00Z'), at('2026-11-26T07:00Z')] as const;
const balance = (...dwells: ReturnType<typeof dwell>[]) => balanceOf(dwells, [], ...DAY);

describe('a balance', () => {
  it('counts a dwell, whole, where its last drain ended: a night dwell does not swing the day', () => {
    // Common practice: what is inside at the cut never counts as intake.
    const day = balance(dwell('2026-11-25T06:59Z', 2000, 2600), dwell('2026-11-25T07:00Z', 2000, 2250));
    expect(day).toMatchObject({ removedMl: 250, exchanges: 1 });
  });

  it('is incomplete, and names what is missing, when one volume is: it is never a sum over a gap', () => {
    const day = balance(dwell('2026-11-25T10:10Z', 2000, 2200), dwell('2026-11-26T06:10Z', 2000, null));
    expect(isComplete(day)).toBe(false);
    expect(day.missing).toEqual([{ at: at('2026-11-26T06:10Z'), what: 'drain' }]);
    expect(wholeBodyMl(day)).toBeNull();
  });

  it('lists the newest 24 missing volumes and counts the others', () => {
    const many = Array.from({ length: 30 }, (_, index) =>
      dwell(new Date(DAY[0] + index * 1_800_000).toISOString(), 2000, null),
    );
    const day = balance(...many);
    expect([day.missing.length, day.missingEarlier]).toEqual([24, 6]);
    expect(day.missing[0]?.at).toBe(DAY[0] + 6 * 1_800_000);
  });

  it('sets other fluids beside the dialysis balance and both together for the whole body, and tells 0 mL from none recorded', () => {
    const fluids = [
      { at: DAY[0] + 1, direction: 'in', volumeMl: 900 },
      { at: DAY[0] + 2, direction: 'out', volumeMl: 400 },
      { at: DAY[1], direction: 'out', volumeMl: 5000 },
    ] as const;
    const day = balanceOf([dwell('2026-11-25T10:10Z', 2000, 2250)], fluids, ...DAY);
    expect(day).toMatchObject({ removedMl: 250, otherInMl: 900, otherOutMl: 400 });
    expect(otherFluidsMl(day)).toBe(500);
    // 250 removed − 500 kept
    expect(wholeBodyMl(day)).toBe(-250);
    expect(balance()).toMatchObject({ otherInMl: null, otherOutMl: null });
    expect(otherFluidsMl(balance())).toBeNull();
    const none = balanceOf([], [{ at: DAY[0], direction: 'out', volumeMl: 0 }], ...DAY);
    expect(none).toMatchObject({ otherInMl: null, otherOutMl: 0 });
    expect(otherFluidsMl(none)).toBe(0);
  });
});

describe('the running balance', () => {
  const drank = (volumeMl: number) => balanceOf([], [{ at: DAY[0], direction: 'in', volumeMl }], ...DAY);
  const removed250 = balance(dwell('2026-11-25T10:10Z', 2000, 2250));
  const unmeasured = balance(dwell('2026-11-25T14:10Z', 2000, null));
  const retained100 = balance(dwell('2026-11-25T18:10Z', 2000, 1900));

  it('adds up the whole body, breaks at an incomplete period, and says so afterwards', () => {
    // 250; not known; 250 − 100 = 150; 150 − 600 = −450
    expect(runningBalance([removed250, unmeasured, retained100, drank(600)])).toEqual([
      { runningMl: 250, sinceGap: false },
      { runningMl: null, sinceGap: true },
      { runningMl: 150, sinceGap: true },
      { runningMl: -450, sinceGap: true },
    ]);
  });

  it('begins with the first period in which there was anything: nothing known is not even', () => {
    expect(runningBalance([balance(), drank(500)]).map(({ runningMl }) => runningMl)).toEqual([null, -500]);
  });
});

describe('a balance in words', () => {
  const words = (...dwells: ReturnType<typeof dwell>[]) => balanceWords(balance(...dwells), 'Europe/London');

  it('is a word and a positive number, never a bare sign', () => {
    expect(words(dwell('2026-11-25T10:10Z', 2000, 2250))).toBe('Removed 250 mL');
    expect(words(dwell('2026-11-25T10:10Z', 2000, 1850))).toBe('Retained 150 mL');
    expect(words(dwell('2026-11-25T10:10Z', 2000, 3250))).toBe('Removed 1,250 mL');
    expect(words(dwell('2026-11-25T10:10Z', 2000, 2000))).toBe('Even');
    expect(words()).toBe('No exchange');
  });

  it('says what is missing and when', () => {
    const missing = dwell('2026-11-26T06:10Z', 2000, null);
    expect(words(missing)).toBe('Incomplete: no drain volume at 06:10');
    const both = words(missing, dwell('2026-11-26T02:10Z', null, 2000));
    expect(both).toBe('Incomplete: no drain volume at 06:10 and 1 more missing');
  });
});
