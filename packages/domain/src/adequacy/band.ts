/**
 * Day-to-day variation of the weekly figures within one patient, as coefficients of variation.
 * Source: Virga et al., Nephrol Dial Transplant, 24 patients.
 */
export const DAY_TO_DAY_CV = {
  peritonealKtV: 0.04,
  totalKtV: 0.044,
  peritonealCreatinineClearance: 0.047,
  totalCreatinineClearance: 0.06,
} as const;

export type DayToDay = { lower: number; upper: number };

/** 95 % of repeats on other days fall within 1.96 standard deviations. */
const Z_95 = 1.96;

/** Where the same patient's figure would lie on another day: value · (1 ± 1.96 · cv). 1.70 means 1.55 to 1.85. */
export const dayToDayBand = (value: number, cv: number): DayToDay => ({
  lower: value * (1 - Z_95 * cv),
  upper: value * (1 + Z_95 * cv),
});
