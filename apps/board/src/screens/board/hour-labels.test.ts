import { describe, expect, it } from 'vitest';
import { labelled, NARROW, ROOMY } from './hour-labels.ts';

/** Full hours are a tenth of the axis apart, and pushed to the left as the hour goes by. */
const lefts = (minute: number) => Array.from({ length: 12 }, (_, index) => 10 * index - minute / 6);

describe.each([
  { axis: 'a desk', room: ROOMY, pixels: 220, least: 3 },
  { axis: 'a narrow desk or a tablet', room: NARROW, pixels: 150, least: 2 },
])('the hours over the ribbons of $axis', ({ room, pixels, least }) => {
  const each = Array.from({ length: 60 }, (_, minute) => labelled(lefts(minute), room).map((at) => lefts(minute)[at]!));

  it('are never fewer, at whatever minute', () => {
    for (const shown of each) expect(shown.length).toBeGreaterThanOrEqual(least);
  });

  it('touch neither the mark of now nor one another', () => {
    for (const shown of each) {
      const px = shown.map((left) => (left * pixels) / 100);
      // half the mark (18 px), half the label (20 px)
      expect(px[0]! - 0.2 * pixels).toBeGreaterThanOrEqual(38);
      for (const [index, left] of px.slice(1).entries()) expect(left - px[index]!).toBeGreaterThanOrEqual(40);
      expect(px.at(-1)!).toBeLessThanOrEqual(pixels);
    }
  });
});
