import type { WallRow } from '@slackwater/domain';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Placed } from '../board/moment.ts';
import { fitOf } from './fit.ts';

const rows = (group: 'now' | 'withinTheHour', alerts: readonly boolean[]) =>
  alerts.map((alert, index) => ({
    row: { bed: `${group}${index}` },
    moment: { group, alert: alert ? {} : null },
  })) as unknown as readonly Placed<WallRow>[];
const fit = (now: readonly boolean[], hour: readonly boolean[]) =>
  fitOf({ now: rows('now', now), withinTheHour: rows('withinTheHour', hour) }, LATER);
const LATER = 140;
const quiet = (count: number) => Array.from({ length: count }, () => false);

describe('the rows of the wall', () => {
  it('all stand at full height on an ordinary day', () => {
    expect(fit(quiet(6), quiet(5))).toMatchObject({ close: false, now: { length: 6 }, hour: { length: 5 } });
  });

  it('close up on a busy one before any is left out', () => {
    expect(fit(quiet(10), quiet(3))).toMatchObject({ close: true, now: { length: 10 }, hour: { length: 3 } });
  });

  it('use the room that few beds in the later hours leave', () => {
    const busy = { now: rows('now', quiet(9)), withinTheHour: rows('withinTheHour', quiet(5)) };
    expect(fitOf(busy, 95)).toMatchObject({ now: { length: 9 }, hour: { length: 5 } });
    expect(fitOf(busy, 185)).toMatchObject({ now: { length: 9 }, hour: { length: 3 } });
  });

  it('never leave out a more urgent row for a less urgent one, and never overflow', () => {
    const list = fc.array(fc.boolean(), { maxLength: 24 });
    fc.assert(
      fc.property(list, list, (now, hour) => {
        const { now: shown, hour: shownHour, close } = fit(now, hour);
        const height = [...shown, ...shownHour].reduce(
          (sum, one) => sum + (one.moment.alert || (one.moment.group === 'now' && !close) ? 77 : 58),
          0,
        );
        const isPrefix = shown.every((one, index) => one.row.bed === `now${index}`);
        return height <= 938 - LATER && isPrefix && (shown.length === now.length || shownHour.length === 0);
      }),
    );
  });
});
