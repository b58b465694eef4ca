/** An estimate with the ends of its confidence interval. */
export type Limits = { estimate: number; lower: number; upper: number };

/** Confidence 95 % unless a caller says otherwise; between 50 and 99.9 %. */
export const CONFIDENCE = 0.95;
export const CONFIDENCE_RANGE = { least: 0.5, most: 0.999, unit: '' } as const;
