import { describe, expect, it } from 'vitest';
import type { MembraneResult } from './membrane-test.ts';
import { type DatedResult, overTime } from './over-time.ts';

const MONTH_MS = 30 * 86_400_000;

const test = (month: number, dpCreatinine: number, glucoseGPerL = 22.7): DatedResult => {
  const final = { hours: 4, dpCreatinine, ddGlucose: 1 - dpCreatinine, sodiumFallMmolPerL: null };
  const result: MembraneResult = { samples: [final], final, category: { creatinine: null, glucose: null } };
  return { at: month * MONTH_MS, glucoseGPerL, result };
};

describe('overTime', () => {
  it('orders the tests of one strength and leaves the other strength out', () => {
    const { dpCreatinine } = overTime([test(12, 0.7), test(0, 0.6), test(6, 0.9, 38.6)], 22.7);
    expect(dpCreatinine.map((point) => point.value)).toEqual([0.6, 0.7]);
  });

  it('says nothing of a trend from few tests', () => {
    expect(overTime([test(0, 0.6), test(6, 0.65), test(12, 0.7)], 22.7).dpTrend).toBeNull();
  });

  it('finds a membrane that becomes faster: creatinine up, glucose down', () => {
    const years = [0, 6, 12, 18, 24, 30].map((month, i) => test(month, 0.6 + 0.03 * i));
    const { dpTrend, ddTrend } = overTime(years, 22.7);
    expect(dpTrend!.direction).toBe('rising');
    expect(ddTrend!.direction).toBe('falling');
    expect(dpTrend!.slopePerDay * 180).toBeCloseTo(0.03, 9);
  });
});
