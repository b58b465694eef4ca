import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { additivesInsideWords, staysUntil, tooEarlyToDrain } from '../dwell/additives-inside.ts';
import { needsServer } from '../exchange/needs-server.ts';
import { at, bedsideOf, byClock, byLength, dwelling, fillOf, item, LONDON, revisionOf } from '../testing/bedside.ts';
import { formatClock } from '../words/numbers.ts';
import { ADDITIVE_KINDS, ADDITIVE_UNITS, type Additive, sameAdditives } from './additive.ts';
import { additivesWords, orderedAdditivesWords } from './additive-words.ts';
import { insulinAtDrain, insulinAtOrder, insulinAtRevision, insulinAtSkip } from './insulin-warnings.ts';
import { orderProblems } from './order-problems.ts';
import { prescriptionProblems } from './problems.ts';

// An antibiotic once a day in the bag dwells at least 6 h: RCP review, Box 2, and hospital guidelines.
const VANCOMYCIN: Additive = { what: 'vancomycin', amount: 1, unit: 'g', kind: 'antibiotic', minimumDwellMinutes: 360 };
// Heparin as ordered, 500 units/L: teaching texts.
const HEPARIN: Additive = {
  what: 'heparin',
  amount: 500,
  unit: 'units/L',
  kind: 'heparin',
  minimumDwellMinutes: null,
};
const INSULIN: Additive = {
  what: 'soluble insulin',
  amount: 12,
  unit: 'units',
  kind: 'insulin',
  minimumDwellMinutes: null,
};

const NO_LIMITS = revisionOf([]).limits;
const problemsOf = (...items: Parameters<typeof prescriptionProblems>[0]['items'][number][]) =>
  prescriptionProblems({ items, limits: NO_LIMITS, acute: false, note: null, reviewBy: null }, LONDON).map(
    ({ code, field }) => [code, field],
  );

describe('what goes into a bag', () => {
  it('is said with amount and unit, a comma from 1,000, a leading zero and no trailing one', () => {
    const thousand = { ...HEPARIN, amount: 1000, unit: 'units' } as const;
    expect(additivesWords([VANCOMYCIN, thousand])).toBe('vancomycin 1 g + heparin 1,000 units');
    expect(additivesWords([{ ...VANCOMYCIN, amount: 0.5 }])).toBe('vancomycin 0.5 g');
    expect(orderedAdditivesWords([VANCOMYCIN])).toBe('vancomycin 1 g, to dwell 6 h at the least');
    expect(additivesWords([])).toBe('');
  });

  it('of an entry from before amounts were kept apart is its text, and no amount is made up', () => {
    const old: Additive = {
      what: 'vancomycin 2 g',
      amount: null,
      unit: null,
      kind: 'other',
      minimumDwellMinutes: null,
    };
    expect(additivesWords([old])).toBe('vancomycin 2 g');
  });

  it('says its amount, its unit, each once, and an antibiotic how long it must dwell', () => {
    const dwell = { by: 'length', dwellMinutes: 480 } as const;
    const wrong = (...additives: Additive[]) => problemsOf(item('a', dwell, { additives }));
    expect(wrong(VANCOMYCIN, HEPARIN)).toEqual([]);
    expect(wrong({ ...VANCOMYCIN, minimumDwellMinutes: null })).toEqual([
      ['missing', 'items[0].additives[0].minimumDwellMinutes'],
    ]);
    expect(wrong({ ...VANCOMYCIN, minimumDwellMinutes: 0 })).toEqual([]);
    expect(wrong({ ...HEPARIN, amount: null, unit: null })).toEqual([
      ['missing', 'items[0].additives[0].amount'],
      ['missing', 'items[0].additives[0].unit'],
    ]);
    expect(wrong({ ...HEPARIN, amount: 0 })).toEqual([['out-of-range', 'items[0].additives[0].amount']]);
    expect(wrong(HEPARIN, { ...HEPARIN, what: 'Heparin ' })).toEqual([['twice', 'items[0].additives']]);
  });

  const anyAdditive: fc.Arbitrary<Additive> = fc.record({
    what: fc.constantFrom('vancomycin', 'cefazolin', 'heparin'),
    amount: fc.constantFrom(0.5, 1, 500),
    unit: fc.constantFrom(...ADDITIVE_UNITS),
    kind: fc.constantFrom(...ADDITIVE_KINDS),
    minimumDwellMinutes: fc.constantFrom(null, 0, 360),
  });

  it('is the same in any order, and not once any of it differs', () => {
    fc.assert(
      fc.property(fc.uniqueArray(anyAdditive, { selector: ({ what }) => what, minLength: 1 }), (additives) => {
        expect(sameAdditives(additives, additives.toReversed())).toBe(true);
        const [first, ...rest] = additives;
        expect(sameAdditives(additives, rest)).toBe(false);
        expect(sameAdditives(additives, [{ ...first!, amount: (first!.amount ?? 0) + 1 }, ...rest])).toBe(false);
      }),
    );
  });
});

describe('a dwell shorter than an antibiotic of its bag', () => {
  it('is refused by length and by cycle', () => {
    const short = { ...byLength('a', 240), additives: [VANCOMYCIN] };
    expect(problemsOf(short)).toEqual([['too-short-for-additive', 'items[0].dwell.dwellMinutes']]);
    const cycle = { by: 'cycle', fillMinutes: 10, dwellMinutes: 40, drainMinutes: 10 } as const;
    expect(problemsOf(item('a', cycle, { additives: [VANCOMYCIN] }))).toHaveLength(1);
    expect(problemsOf({ ...byLength('a', 360), additives: [VANCOMYCIN] })).toEqual([]);
  });

  it('is refused by clock where the next fill is nearer, over midnight too; alone it has the whole day', () => {
    const night = { ...byClock('night', '22:00'), additives: [VANCOMYCIN] };
    expect(problemsOf(byClock('day', '08:00'), night)).toEqual([]);
    expect(problemsOf(byClock('day', '03:00'), night)).toEqual([['too-short-for-additive', 'items[1].dwell.at']]);
    expect(problemsOf(night)).toEqual([]);
  });

  it('is refused in an order, which must say how long the bag dwells', () => {
    const order = (dwellMinutes: number | null) => {
      const bag = { solutionId: 'glucose-2.27', fillMl: 2000, additives: [VANCOMYCIN] };
      const content = { what: 'oneExchange', ...bag, dwellMinutes } as const;
      return orderProblems({ content, note: null, telephone: null }, LONDON).map(({ code, field }) => [code, field]);
    };
    expect(order(null)).toEqual([['missing', 'content.dwellMinutes']]);
    expect(order(300)).toEqual([['too-short-for-additive', 'content.dwellMinutes']]);
    expect(order(360)).toEqual([]);
  });
});

describe('while it dwells', () => {
  const filledAt = at('2026-11-25T10:05Z');
  const clock = (instant: number) => formatClock(instant, 'Europe/London');
  const fills = [fillOf(filledAt, { additives: [VANCOMYCIN, HEPARIN] })];
  const state = bedsideOf({ cavity: { state: 'holding', since: filledAt, fills } });

  it('the board says what was added and until when it stays', () => {
    expect(staysUntil(state.cavity)).toBe(at('2026-11-25T16:05Z'));
    expect(additivesInsideWords(state.cavity, clock)).toBe('+ vancomycin 1 g + heparin 500 units/L, stays to 16:05');
    expect(additivesInsideWords({ state: 'empty', since: 0 }, clock)).toBeNull();
  });

  it('a drain before that is asked about, and one at that time is not', () => {
    expect(tooEarlyToDrain(state, at('2026-11-25T16:04Z'), 'Europe/London')).toBe(
      'In since 10:05, vancomycin 1 g must stay until 16:05.',
    );
    expect(tooEarlyToDrain(state, at('2026-11-25T16:05Z'), 'Europe/London')).toBeNull();
  });

  it('a fill of unknown time gives no time to stay until: none is made up', () => {
    const unknown = [fillOf(filledAt, { endedAt: null, additives: [VANCOMYCIN] })];
    expect(staysUntil({ state: 'holding', since: filledAt, fills: unknown })).toBeNull();
  });
});

describe('insulin in a bag', () => {
  const filledAt = at('2026-11-25T10:00Z');
  const day = revisionOf([
    { ...byLength('a', 240), additives: [INSULIN] },
    { ...byLength('b', 240), additives: [INSULIN] },
  ]);
  const fills = [fillOf(filledAt, { itemId: 'a', additives: [INSULIN] })];
  const state = dwelling(day, 'a', filledAt, { cavity: { state: 'holding', since: filledAt, fills } });

  it('is spoken of when the drain comes well before it is due, without a number reckoned', () => {
    const words = insulinAtDrain(state, at('2026-11-25T11:00Z'), 'Europe/London');
    expect(words).toMatch(/^Insulin was given for this bag \(soluble insulin 12 units\), .* call the physician\.$/);
    expect(insulinAtDrain(state, state.due!.soonAt, 'Europe/London')).toBeNull();
  });

  it('is spoken of when its bag is not given, is another, or an order takes its place', () => {
    expect(insulinAtSkip(state, LONDON)).toMatch(/not given .*call the physician/);
    const [a] = day.items;
    expect(insulinAtRevision(a, { ...a!, solutionId: 'glucose-3.86' })).toMatch(/^Insulin was ordered/);
    expect(insulinAtRevision(a, { ...a!, windowMinutes: 60 })).toBeNull();
    const now = at('2026-11-25T11:00Z');
    expect(insulinAtOrder(state, { what: 'drainNow' }, now, LONDON)).toMatch(/call the physician/);
    const bag = { solutionId: 'glucose-3.86', fillMl: 2000, dwellMinutes: null, additives: [] } as const;
    expect(insulinAtOrder(state, { what: 'oneExchange', ...bag }, now, LONDON)).toMatch(/replaces/);
  });
});

describe('without network', () => {
  it('a fill with something added waits for the server, a plain one and one entered afterwards do not', () => {
    const fill = (payload: object) => needsServer({ kind: 'startFill', payload } as never)?.code ?? null;
    expect(fill({ additives: [] })).toBeNull();
    expect(fill({ additives: [VANCOMYCIN] })).toBe('needs-the-server');
    expect(fill({ additives: [VANCOMYCIN], afterwards: { secondPerson: 'R. Marsh' } })).toBeNull();
    expect(needsServer({ kind: 'additiveChecked', payload: {} } as never)?.message).toMatch(/No connection/);
    expect(needsServer({ kind: 'endFill', payload: {} } as never)).toBeNull();
  });
});
