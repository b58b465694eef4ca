import { describe, expect, it } from 'vitest';
import { coverage, goalsOf, medianErrorMl, seenFrom } from './report-kinetics-goals.ts';
import { calibrationSvg } from './report-kinetics-picture.ts';
import { foreseeWorlds } from './report-kinetics-run.ts';

/** A short run of the long report, same simulation: 4 worlds × 8 patients × 50 exchanges. */
const foresights = foreseeWorlds(8, 50, 7);

describe('foreseen drains of invented patients, none of them made by the model', () => {
  it('is the same run every time', () => {
    expect(foreseeWorlds(1, 10, 7)).toEqual(foreseeWorlds(1, 10, 7));
    expect(foreseeWorlds(1, 10, 8)).not.toEqual(foreseeWorlds(1, 10, 7));
  });

  it('lie within the 80 % band about so often', () => {
    expect(coverage(seenFrom(foresights, 5))).toBeGreaterThan(0.75);
    expect(coverage(seenFrom(foresights, 5))).toBeLessThan(0.88);
  });

  it('are nearer than by a moving average or the last of their kind, once drains were seen', () => {
    const later = seenFrom(foresights, 20);
    expect(medianErrorMl(later, 'learned')).toBeLessThan(medianErrorMl(later, 'moving average'));
    expect(medianErrorMl(later, 'moving average')).toBeLessThan(medianErrorMl(later, 'last of this kind'));
    expect(medianErrorMl(later, 'last of this kind')).toBeLessThan(medianErrorMl(later, 'drain = fill'));
  });

  it('make the report’s goals and its picture', () => {
    expect(goalsOf(foresights)).toHaveLength(10);
    expect(calibrationSvg(foresights, 'a short run').match(/<polyline/g)).toHaveLength(4);
  });
});
