import { HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';
import { describe, expect, it } from 'vitest';
import { originAt, percentOf, SPAN_MINUTES, shiftPercent } from './axis.ts';

const noon = Date.UTC(2026, 10, 25, 12);

describe('the time axis', () => {
  it('reaches from two hours ago to eight hours ahead', () => {
    expect(SPAN_MINUTES).toBe(600);
  });

  it.each([0, 1, 37, 59])('keeps now at the same place %d minutes past the hour', (minutes) => {
    const now = noon + minutes * MINUTE_MS;
    const origin = originAt(now);
    expect(percentOf(now, origin) - shiftPercent(now, origin)).toBeCloseTo(20, 10);
    expect(percentOf(now + 8 * HOUR_MS, origin) - shiftPercent(now, origin)).toBeCloseTo(100, 10);
  });

  it('draws from the same instant for a whole hour', () => {
    expect(originAt(noon + 59 * MINUTE_MS)).toBe(originAt(noon));
    expect(originAt(noon + HOUR_MS)).toBe(originAt(noon) + HOUR_MS);
  });
});
