import { describe, expect, it } from 'vitest';
import { roundTicks } from './round-ticks.ts';

describe('the ticks of an axis', () => {
  it('are round and reach around what is drawn', () => {
    expect(roundTicks([0, 1790], 100)).toEqual([0, 500, 1000, 1500, 2000]);
    expect(roundTicks([0, -110, 940], 100)).toEqual([-500, 0, 500, 1000]);
    expect(roundTicks([69.9, 71.4, 70.2], 1)).toEqual([69, 70, 71, 72]);
  });

  it('have a step also where all values are alike, or there is but one', () => {
    expect(roundTicks([0], 100)).toEqual([0, 100]);
    expect(roundTicks([70, 70], 1)).toEqual([70, 71]);
    expect(roundTicks([-40, 0], 100)).toEqual([-100, 0]);
  });

  it('are never more than six', () => {
    for (let most = 1; most < 60_000; most = Math.ceil(most * 1.07)) {
      const ticks = roundTicks([0, most], 100);
      expect(ticks.length).toBeLessThanOrEqual(6);
      expect(ticks.at(-1)).toBeGreaterThanOrEqual(most);
      expect(ticks[0]).toBe(0);
    }
  });
});
