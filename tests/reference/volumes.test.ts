import {
  confirmEmpty,
  EXPECTED_UF,
  expectedUf,
  infusedMl,
  measuredMl,
  type Reckoning,
  reckon,
  type Solution,
  STANDARD_FORMULARY,
  startEmpty,
} from '@slackwater/domain';
import { describe, expect, it } from 'vitest';

/** Marks: P published, W teaching page, M from memory, C computed independently from the stated rule, T common practice. */
const solution = (id: string): Solution => STANDARD_FORMULARY.find((one) => one.id === id)!;
const RESIDUAL = { residualMl: 200 };
const START = startEmpty(RESIDUAL, { at: 0, by: 'admission' });
const IMAGED = { at: 1000, by: 'imaging' } as const;

const dwell = (ufMl: number, sdMl: number, drainedMl: number, stopped = true) => ({
  filledMl: 2000,
  drainedMl,
  expected: { ufMl, sdMl },
  fills: 1,
  drains: 1,
  stopped,
});

const insideAfter = (before: Reckoning, ...dwells: ReturnType<typeof dwell>[]): Reckoning =>
  dwells.reduce((inside, one) => reckon(inside, one, RESIDUAL), before);

describe('what is probably inside', () => {
  it('starts at the ordinary residual with a spread of 100 mL, when a person says that the cavity is empty', () => {
    // Residual 200 mL: M. Spread: C.
    expect(START).toMatchObject({ bookMl: 200, flowMl: 200, flowVarianceMl2: 100 ** 2 });
  });

  it('after a strong bag that brought little and stopped: by the flow 607, by the book 950', () => {
    // C: 3.86 %, U 800 (s 250), drained 2050.
    const inside = insideAfter(START, dwell(800, 250, 2050));
    expect(Math.round(inside.flowMl!)).toBe(607);
    expect(inside.bookMl).toBe(950);
  });

  it('after an ordinary dwell that brought what was expected: 200 and 200', () => {
    // C: U 350 (s 200), drained 2350.
    const inside = insideAfter(START, dwell(350, 200, 2350));
    expect(inside.flowMl).toBeCloseTo(200, 9);
    expect(inside.bookMl).toBe(200);
  });

  it('after a drain that was ended while it still ran: 1050 and 1050', () => {
    // C: U 350 (s 200), drained 1500, not stopped.
    const inside = insideAfter(START, dwell(350, 200, 1500, false));
    expect(inside.flowMl).toBe(1050);
    expect(inside.bookMl).toBe(1050);
  });

  it('after twelve dwells that each brought 200 less than expected: by the flow 239, by the book 2600', () => {
    // C: U 50 (s 200), drained 1850, stopped.
    const inside = insideAfter(START, ...Array(12).fill(dwell(50, 200, 1850)));
    expect(Math.round(inside.flowMl!)).toBe(239);
    expect(inside.bookMl).toBe(2600);
  });

  it('learns from a confirmation what those twelve dwells say: 200 mL a dwell less than the table expects', () => {
    // C: (Σ drained − Σ filled − Σ U) ÷ 12 = −200; with it the book stays where it was.
    const confirmed = confirmEmpty(insideAfter(START, ...Array(12).fill(dwell(50, 200, 1850))), RESIDUAL, IMAGED);
    expect(confirmed).toMatchObject({ bookMl: 200, flowMl: 200, flowVarianceMl2: 100 ** 2, ufCorrectionMl: -200 });
    expect(confirmed.correctionFrom).toEqual({ dwells: 12, surplusMl: -2400, since: 0, until: 1000 });
    expect(insideAfter(confirmed, dwell(50, 200, 1850)).bookMl).toBe(200);
  });

  it('runs up by the book with each short drain: 850, 1500, 2150, 2800', () => {
    // C: four times U 350, drained 1700.
    const short = dwell(350, 200, 1700);
    expect([1, 2, 3, 4].map((times) => insideAfter(START, ...Array(times).fill(short)).bookMl)).toEqual([
      850, 1500, 2150, 2800,
    ]);
  });

  it('is not known once a fill or a drain has no volume, and stays so until a person confirms empty', () => {
    // T: a missing volume is never taken for zero or for the residual.
    const unknownDrain = reckon(START, { ...dwell(350, 200, 0), drainedMl: null }, RESIDUAL);
    expect(unknownDrain).toMatchObject({ bookMl: null, flowMl: null, flowVarianceMl2: null });
    const unknownFill = reckon(START, { ...dwell(350, 200, 2350), filledMl: null }, RESIDUAL);
    expect(insideAfter(unknownFill, dwell(350, 200, 2350)).bookMl).toBeNull();
    expect(confirmEmpty(unknownFill, RESIDUAL, IMAGED).bookMl).toBe(200);
  });
});

describe('expected ultrafiltration', () => {
  // M, rounded from published means: crossover study of 23; La Milia et al., Perit Dial Int 2017; PubMed 7474677.
  const table: readonly [string, number, number, number][] = [
    ['glucose-1.36', 1, 60, 150],
    ['glucose-1.36', 2, 80, 175],
    ['glucose-1.36', 4, 50, 200],
    ['glucose-1.36', 8, -100, 250],
    ['glucose-2.27', 1, 200, 150],
    ['glucose-2.27', 2, 300, 175],
    ['glucose-2.27', 4, 350, 200],
    ['glucose-2.27', 8, 200, 300],
    ['glucose-3.86', 1, 430, 200],
    ['glucose-3.86', 2, 650, 225],
    ['glucose-3.86', 4, 800, 250],
    ['glucose-3.86', 8, 700, 350],
    ['icodextrin-7.5', 10, 500, 300],
  ];
  it.each(table)('of 2 L of %s for %d h is %d mL, spread %d', (id, hours, ufMl, sdMl) => {
    expect(expectedUf(solution(id), 2000, hours * 60, EXPECTED_UF)).toEqual({ ufMl, sdMl });
  });

  it('goes in straight lines between lengths, from 0 at 0 h', () => {
    // C: 2.27 %, half way from 2 to 4 h; half of 1 h. Icodextrin, half of 10 h.
    expect(expectedUf(solution('glucose-2.27'), 2000, 180, EXPECTED_UF)).toEqual({ ufMl: 325, sdMl: 187.5 });
    expect(expectedUf(solution('glucose-2.27'), 2000, 30, EXPECTED_UF)).toEqual({ ufMl: 100, sdMl: 75 });
    expect(expectedUf(solution('icodextrin-7.5'), 2000, 300, EXPECTED_UF)).toEqual({ ufMl: 250, sdMl: 150 });
  });

  it('goes by grams per litre between strengths', () => {
    // C: 15.0 g/L for 4 h: 50 + (15.0 − 13.6) ÷ (22.7 − 13.6) × (350 − 50) = 96.15.
    const other = { ...solution('glucose-1.36'), glucoseGPerL: 15.0 };
    expect(expectedUf(other, 2000, 240, EXPECTED_UF)!.ufMl).toBeCloseTo(96.154, 3);
  });

  it('goes with the fill', () => {
    // T: U and its spread in proportion to the fill.
    expect(expectedUf(solution('glucose-3.86'), 1000, 240, EXPECTED_UF)).toEqual({ ufMl: 400, sdMl: 125 });
  });

  it('holds the last value so far, and then is not known', () => {
    expect(expectedUf(solution('glucose-1.36'), 2000, 12 * 60, EXPECTED_UF)).toEqual({ ufMl: -100, sdMl: 250 });
    expect(expectedUf(solution('glucose-1.36'), 2000, 12 * 60 + 1, EXPECTED_UF)).toBeNull();
    expect(expectedUf(solution('icodextrin-7.5'), 2000, 16 * 60, EXPECTED_UF)).toEqual({ ufMl: 500, sdMl: 300 });
    expect(expectedUf(solution('icodextrin-7.5'), 2000, 16 * 60 + 1, EXPECTED_UF)).toBeNull();
    // A fluid of 42.5 g/L anhydrous lies outside the table.
    expect(expectedUf({ ...solution('glucose-3.86'), glucoseGPerL: 42.5 }, 2000, 240, EXPECTED_UF)).toBeNull();
  });
});

describe('volumes', () => {
  const weighed = { drain: 1, role: 'exact', method: 'scale', tareG: 100, densityGPerMl: 1 } as const;

  it('weighed: (gross − tare) ÷ density; at 1.02 g/mL a 2 L drain weighs 40 g more', () => {
    // T; density 1.00 to 1.02 g/mL: M.
    const noFlush = { flushIncluded: false, flushMl: 0 };
    expect(measuredMl({ ...weighed, ...noFlush, grossG: 2350 })).toBe(2250);
    expect(measuredMl({ ...weighed, ...noFlush, grossG: 2140, densityGPerMl: 1.02 })).toBe(2000);
  });

  it('drained = drain bag − flush; four exchanges with the flush forgotten overstate removal by 0.4 L', () => {
    // P: Maharjan & Davenport, J Nephrol 2019 (doi 10.1007/s40620-019-00646-7): about 100 mL of flush.
    const jug = { drain: 1, role: 'exact', method: 'jug', volumeMl: 2300, flushMl: 100 } as const;
    const forgotten = measuredMl({ ...jug, flushIncluded: false });
    expect(4 * (forgotten - measuredMl({ ...jug, flushIncluded: true }))).toBe(400);
  });

  it('infused = label + bag excess − flush − left in the bag', () => {
    // P: La Milia et al., Perit Dial Int 2017 (doi 10.3747/pdi.2017.00004): about 100 mL above the label of 2 L.
    const computed = { basis: 'computed', labelledMl: 2000, bagExcessMl: 100, flushMl: 100, leftInBagMl: 0 } as const;
    expect(infusedMl(computed)).toBe(2000);
    expect(infusedMl({ ...computed, flushMl: 0, leftInBagMl: 600 })).toBe(1500);
    expect(infusedMl({ basis: 'notKnown' })).toBeNull();
  });
});
