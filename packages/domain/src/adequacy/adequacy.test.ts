import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert } from '../units/convert.ts';
import { SUBSTANCES } from '../units/substances.ts';
import { type AdequacyInput, adequacyOf } from './adequacy.ts';
import { clearanceLPerWeek } from './clearance.ts';
import { ureaNitrogenAppearanceGPerDay } from './nitrogen.ts';
import { againstTarget } from './targets.ts';

const positive = (least: number, most: number) => fc.double({ min: least, max: most, noNaN: true });

const collection = (most: number) =>
  fc.record({
    sampledMl: positive(100, most),
    hours: positive(20, 28),
    ureaMmolPerL: positive(0, 300),
    creatinineUmolPerL: positive(0, 20_000),
  });

const input: fc.Arbitrary<AdequacyInput> = fc.record({
  body: fc.record({
    sex: fc.constantFrom('female' as const, 'male' as const),
    ageYears: positive(18, 90),
    heightCm: positive(140, 200),
    weightKg: positive(45, 110),
  }),
  bodyWaterFormula: fc.constant('watson' as const),
  bodySurfaceFormula: fc.constantFrom('duBois' as const, 'mosteller' as const),
  dialysate: collection(20_000),
  urine: collection(3_000).map((urine) => ({ state: 'collected' as const, collection: urine })),
  plasma: fc.record({ ureaMmolPerL: positive(5, 60), creatinineUmolPerL: positive(200, 2_000) }),
  standing: fc.constant({
    collectedAt: 0,
    dialysis: 'chronic' as const,
    steady: true,
    peritonitisTreatedUntil: null,
  }),
});

describe('adequacyOf', () => {
  it('adds the clearances of the compartments', () => {
    fc.assert(
      fc.property(input, (each) => {
        const { weeklyKtV, creatinineClearance, bodySurfaceM2 } = adequacyOf(each).value!;
        expect(weeklyKtV.total!.value).toBeCloseTo(weeklyKtV.peritoneal.value + weeklyKtV.renal!, 9);
        expect((creatinineClearance.totalLPerWeekPer173!.value * bodySurfaceM2) / 1.73).toBeCloseTo(
          creatinineClearance.peritonealLPerWeek + creatinineClearance.renalLPerWeek!,
          6,
        );
      }),
    );
  });

  it('does not change when a collection is cut into bags that are sampled apart', () => {
    fc.assert(
      fc.property(positive(100, 5_000), positive(100, 5_000), positive(1, 40), positive(1, 40), (a, b, ca, cb) => {
        const apart =
          clearanceLPerWeek({ sampledMl: a, hours: 24 }, ca, 20) +
          clearanceLPerWeek({ sampledMl: b, hours: 24 }, cb, 20);
        const mixed = (a * ca + b * cb) / (a + b);
        expect(clearanceLPerWeek({ sampledMl: a + b, hours: 24 }, mixed, 20) / apart).toBeCloseTo(1, 12);
      }),
    );
  });

  it('agrees between unit systems to 1e-9: clearance from mg/dL of urea nitrogen and of creatinine', () => {
    const bun = (mmolPerL: number): number => convert(mmolPerL, 'mmol/L', 'mg/dL', SUBSTANCES.ureaNitrogen).value!;
    const creatinine = (umolPerL: number): number => convert(umolPerL, 'umol/L', 'mg/dL', SUBSTANCES.creatinine).value!;
    fc.assert(
      fc.property(input, (each) => {
        const { dialysate, plasma } = each;
        const si = adequacyOf(each).value!;
        const urea = clearanceLPerWeek(dialysate, bun(dialysate.ureaMmolPerL), bun(plasma.ureaMmolPerL));
        const creatinineClearance = clearanceLPerWeek(
          dialysate,
          creatinine(dialysate.creatinineUmolPerL),
          creatinine(plasma.creatinineUmolPerL),
        );
        expect(Math.abs(urea / si.bodyWaterL - si.weeklyKtV.peritoneal.value)).toBeLessThan(
          1e-9 * Math.max(1, si.weeklyKtV.peritoneal.value),
        );
        expect(Math.abs(creatinineClearance - si.creatinineClearance.peritonealLPerWeek)).toBeLessThan(
          1e-9 * Math.max(1, creatinineClearance),
        );
      }),
    );
  });

  it('agrees between unit systems to 1e-9: grams of nitrogen straight from mg/dL and decilitres', () => {
    fc.assert(
      fc.property(collection(20_000), (dialysate) => {
        const mgPerDl = convert(dialysate.ureaMmolPerL, 'mmol/L', 'mg/dL', SUBSTANCES.ureaNitrogen).value!;
        const gramsADay = (((dialysate.sampledMl / 100) * mgPerDl) / 1000) * (24 / dialysate.hours);
        const una = ureaNitrogenAppearanceGPerDay({ dialysate, urine: null }).value!;
        expect(Math.abs(una - gramsADay)).toBeLessThan(1e-9 * Math.max(1, gramsADay));
      }),
    );
  });

  it('lets the band contain the value', () => {
    fc.assert(
      fc.property(input, (each) => {
        const { value, band } = adequacyOf(each).value!.weeklyKtV.total!;
        expect(band.lower).toBeLessThanOrEqual(value);
        expect(band.upper).toBeGreaterThanOrEqual(value);
      }),
    );
  });

  it('names every problem at once, each with its part', () => {
    const [example] = fc.sample(input, { numRuns: 1, seed: 1 });
    const broken = adequacyOf({
      ...example!,
      dialysate: { ...example!.dialysate, sampledMl: 0, hours: 12 },
      plasma: { ...example!.plasma, ureaMmolPerL: -1 },
    });
    expect(broken.value).toBeNull();
    expect(broken.issues.map((issue) => issue.field)).toEqual([
      'dialysate.sampledMl',
      'dialysate.hours',
      'plasma.ureaMmolPerL',
    ]);
  });
});

describe('againstTarget', () => {
  const banded = (value: number, width: number) => ({ value, band: { lower: value - width, upper: value + width } });
  const ktV = (peritoneal: number, total: number | null) => ({
    weeklyKtV: { peritoneal: banded(peritoneal, 0.1), renal: null, total: total === null ? null : banded(total, 0.15) },
  });

  it('counts residual function above 100 mL of urine a day and not at 100', () => {
    expect(againstTarget(ktV(1.4, 2.2), 101)).toEqual({ heldAgainst: 2.2, residualCounted: true, verdict: 'reached' });
    expect(againstTarget(ktV(1.4, 2.2), 100)).toEqual({
      heldAgainst: 1.4,
      residualCounted: false,
      verdict: 'notReached',
    });
  });

  it('gives no verdict that another day may turn round', () => {
    expect(againstTarget(ktV(1.75, 1.75), 0).verdict).toBe('withinBand');
  });

  it('does not take urine that was not collected for none', () => {
    expect(againstTarget(ktV(1.4, null), null)).toEqual({
      heldAgainst: null,
      residualCounted: false,
      verdict: 'notKnown',
    });
    expect(againstTarget(ktV(2.0, null), null).verdict).toBe('reached');
  });
});
