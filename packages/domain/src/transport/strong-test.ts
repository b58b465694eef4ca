/**
 * Reference values of the 4 h test with 3.86 % glucose in 758 people new to dialysis, mean and SD.
 * Source: La Milia et al., Perit Dial Int 2017 (doi 10.3747/pdi.2017.00004).
 */
export const STRONG_TEST_REFERENCE = {
  dpCreatinine: { mean: 0.73, sd: 0.1 },
  ddGlucose: { mean: 0.25, sd: 0.08 },
  sodiumFallMmolPerL: { mean: 8.4, sd: 3.8 },
  ultrafiltrationUncorrectedMl: { mean: 776, sd: 295 },
  ultrafiltrationCorrectedMl: { mean: 675, sd: 308 },
} as const;

export type StrongTestQuantity = keyof typeof STRONG_TEST_REFERENCE;

/** How many standard deviations a value lies from the reference mean; within ±1 is where two thirds of people are. */
export const deviationsFromReference = (quantity: StrongTestQuantity, value: number): number =>
  (value - STRONG_TEST_REFERENCE[quantity].mean) / STRONG_TEST_REFERENCE[quantity].sd;
