import type { RibbonPiece } from '@slackwater/domain';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';
import { describe, expect, it } from 'vitest';
import { type RibbonSource, shapesOf } from './shapes.ts';

/** The origin of the axis; instants below are minutes from it. */
const origin = Date.UTC(2026, 10, 25, 10);
const at = (minute: number) => origin + minute * MINUTE_MS;
const piece = (as: RibbonPiece['as'], from: number, to: number | null, fromMl: number | null, toMl: number | null) => ({
  as,
  from: at(from),
  to: to === null ? null : at(to),
  fromMl,
  toMl,
});
const due = (what: 'drain' | 'fill', minute: number) => ({ what, dueAt: at(minute) }) as RibbonSource['due'];
const source = (over: Partial<RibbonSource>): RibbonSource => ({
  ribbon: [],
  due: null,
  visit: null,
  next: null,
  cavity: { state: 'holding', since: origin, fills: [] },
  inside: { bookMl: 200, flowMl: 200, flowVarianceMl2: 10_000 },
  laterDrainsAt: [],
  cycle: null,
  ...over,
});

describe('the ribbon', () => {
  it('draws what dwells up to the far end, to be cut at now, and what is expected only up to due', () => {
    const shapes = shapesOf(
      source({ ribbon: [piece('dwelling', 30, null, 2000, 2000)], due: due('drain', 270) }),
      origin,
    );
    expect(shapes.level).toBe('M30 1000L660 1000');
    expect(shapes.ahead).toBe('M30 3000L30 1000L270 1000L270 3000Z');
  });

  it('draws a drain under way as unsure: nobody has measured it', () => {
    const shapes = shapesOf(source({ ribbon: [piece('draining', 100, null, 2100, null)] }), origin);
    expect(shapes.unsure).toContain('M100 900L120 3000');
    expect(shapes.level).toBe('');
  });

  it('draws nothing where nothing is known, never an empty cavity', () => {
    const shapes = shapesOf(
      source({ ribbon: [piece('unknown', 60, null, null, null)], due: due('drain', 300) }),
      origin,
    );
    expect(shapes.unknown).toEqual([{ from: 60, to: 300 }]);
    expect([shapes.water, shapes.bed]).toEqual(['', '']);
    const missing = shapesOf(source({ ribbon: [piece('dwelling', 60, 90, null, null)] }), origin);
    expect(missing.unknown).toEqual([{ from: 60, to: 90 }]);
  });

  it('draws the estimate by the book only where it differs from the one by the flow by more than 200 mL', () => {
    const ribbon = [piece('dwelling', 30, null, 2200, 2200)];
    const near = { bookMl: 400, flowMl: 200, flowVarianceMl2: 1 };
    expect(shapesOf(source({ ribbon, inside: near }), origin).byTheBook).toBe('');
    const far = { bookMl: 850, flowMl: 200, flowVarianceMl2: 1 };
    expect(shapesOf(source({ ribbon, inside: far }), origin).byTheBook).toBe('M30 150L660 150');
  });

  it('draws an empty cavity as its bed, and the fill that is due as a dotted rise', () => {
    const next = { solution: '', strength: '', fillMl: 1500, doubts: [] };
    const cavity = { state: 'empty', since: at(20) } as const;
    const ribbon = [piece('empty', 20, null, 0, 0)];
    const shapes = shapesOf(source({ ribbon, cavity, next, due: due('fill', 400) }), origin);
    expect(shapes.bed).toBe('M20 3000L660 3000');
    expect(shapes.planned).toBe('M400 3000L410 1500L660 1500');
  });

  it('draws the rhythm of an hourly prescription from the next drain on', () => {
    const shapes = shapesOf(
      source({
        due: due('drain', 100),
        laterDrainsAt: [at(160)],
        cycle: { number: 3, minutes: 60 },
        next: { solution: '', strength: '', fillMl: 1500, doubts: [] },
      }),
      origin,
    );
    expect(shapes.planned).toBe('M100 1500L110 3000L120 1500L160 1500L170 3000L180 1500');
  });

  it('leaves out what ended before the axis begins', () => {
    const old = [piece('dwelling', -300, -100, 2000, 2000)];
    expect(shapesOf(source({ ribbon: old }), origin).water).toBe('');
    expect(shapesOf(source({ ribbon: old }), origin - 4 * HOUR_MS).water).not.toBe('');
  });
});
