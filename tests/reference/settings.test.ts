import type { WardSettings } from '@slackwater/domain';
import type { Mark } from '@slackwater/domain/ward/mark';
import { DEFAULT_SETTINGS, SETTINGS } from '@slackwater/domain/ward/settings';
import { describe, expect, it } from 'vitest';

/**
 * The defaults of a ward, written out again from the clinical reference with their marks: P publication, W teaching
 * page, M from memory, C computed, T common practice.
 */
const EXPECTED: readonly [keyof WardSettings, number, Mark][] = [
  // Maharjan & Davenport, J Nephrol 2019: about 100 mL of flush.
  ['flushMl', 100, 'P'],
  // Int J Nephrol 2011:739794, Table 7: one dwell retaining more than 1,000 mL.
  ['retainedCallMl', 1000, 'P'],
  // From memory, and measured in children (Adv Perit Dial 1999).
  ['residualMl', 200, 'M'],
  // Common practice; weighed volume.
  ['densityGPerMl', 1, 'T'],
  // Computed: reading error of jugs and bag marks.
  ['measuresApartMl', 150, 'C'],
  // Computed from the published spread of ultrafiltration (175 to 295 mL).
  ['shortDrainBelowExpectedMl', 400, 'C'],
  ['shortDrainBelowFillPercent', 80, 'C'],
  // Teaching texts; AJKD core curriculum as summarised.
  ['slowDrainMinutes', 30, 'W'],
  ['verySlowDrainMinutes', 45, 'W'],
  // From memory, low confidence.
  ['guardAskPercent', 25, 'M'],
  ['guardStopPercent', 50, 'M'],
  // Common practice.
  ['slowFillMinutes', 20, 'T'],
  ['preparingMinutes', 15, 'T'],
  ['connectedMinutes', 10, 'T'],
  ['drainedMinutes', 15, 'T'],
  ['fillingMinutes', 30, 'T'],
  ['pressureOldMinutes', 60, 'T'],
  ['glucoseOldMinutes', 60, 'T'],
  ['holdReviewMostHours', 72, 'T'],
  ['prescriptionReviewMostDays', 90, 'T'],
  // Product information of icodextrin, from memory: two weeks after the last dwell.
  ['icodextrinCautionDays', 14, 'M'],
  // Int J Nephrol 2011:739794, Table 7: an acute prescription is reviewed daily.
  ['acuteReviewHours', 24, 'P'],
  ['closingMinutes', 15, 'T'],
  ['soonPercent', 10, 'T'],
  ['soonLeastMinutes', 5, 'T'],
  ['soonMostMinutes', 30, 'T'],
  ['overduePercent', 10, 'T'],
  ['overdueLeastMinutes', 10, 'T'],
  ['overdueMostMinutes', 60, 'T'],
  ['clockMinimumMinutes', 120, 'T'],
  ['clockFarHours', 4, 'T'],
  ['fillAfterDrainMinutes', 30, 'T'],
  ['drainsAtOnce', 1, 'T'],
  ['acknowledgeMostMinutes', 30, 'T'],
  ['escalateToChargeNurseMinutes', 5, 'T'],
  ['escalateToPhysicianMinutes', 15, 'T'],
  ['beforeAdmissionHours', 24, 'T'],
  ['aheadOfClockMinutes', 2, 'T'],
  // ISPD 2022 counts peritonitis within 30 days of insertion apart: from memory.
  ['newCatheterDays', 30, 'M'],
  ['severePainFrom', 7, 'T'],
  ['sampleWithinMinutes', 60, 'T'],
  ['countWithinHours', 6, 'T'],
  ['drainedMostMl', 6000, 'T'],
  ['filledMostMl', 5000, 'T'],
  ['flushMostMl', 500, 'T'],
  ['urineMostMl', 10_000, 'T'],
  ['grossMostG', 10_000, 'T'],
  ['tareMostG', 2000, 'T'],
  ['antibioticDwellMinutes', 360, 'M'],
  ['secondPersonMinutes', 2, 'T'],
  ['dwellLeastMinutes', 10, 'T'],
  ['dwellMostMinutes', 1440, 'T'],
];

it.each(EXPECTED)('%s is %f by default (%s)', (key, value, mark) => {
  expect(SETTINGS[key]).toMatchObject({ default: value, mark });
  expect(DEFAULT_SETTINGS[key]).toBe(value);
});

describe('every setting', () => {
  it('says what it means, where it is from, and is marked', () => {
    for (const setting of Object.values(SETTINGS)) {
      expect(setting.meaning).not.toBe('');
      expect(setting.source).not.toBe('');
      // What nobody published is not dressed up as published.
      if (setting.mark === 'P') expect(setting.source).toMatch(/\d{4}/);
      if (setting.mark === 'T') expect(setting.source).toMatch(/^Common practice/);
      if (setting.mark === 'M') expect(setting.source).toMatch(/from memory/i);
      if (setting.mark === 'C') expect(setting.source).toMatch(/^Computed/);
    }
  });

  /** The table of expected ultrafiltration (2 L, adults): rounded from published means, and from memory (M). */
  it('of the expected ultrafiltration stands as in the reference', () => {
    const row = (fluid: string, hours: readonly number[]) =>
      hours.flatMap((hour) => [
        DEFAULT_SETTINGS[`uf${fluid}At${hour}hMl` as keyof WardSettings],
        DEFAULT_SETTINGS[`uf${fluid}At${hour}hSdMl` as keyof WardSettings],
      ]);
    expect(row('136', [1, 2, 4, 8])).toEqual([60, 150, 80, 175, 50, 200, -100, 250]);
    expect(row('227', [1, 2, 4, 8])).toEqual([200, 150, 300, 175, 350, 200, 200, 300]);
    expect(row('386', [1, 2, 4, 8])).toEqual([430, 200, 650, 225, 800, 250, 700, 350]);
    expect(row('Icodextrin', [10])).toEqual([500, 300]);
  });
});
