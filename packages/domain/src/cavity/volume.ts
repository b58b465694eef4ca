/**
 * One reading of what a drain brought. The *reading* (hanging scale or bag marks) comes before the fill and serves the
 * comparison and the guard; the *exact* measure (scale or measuring jug) comes at the end and replaces it in every sum.
 */
export type Measure = {
  /** Which drain of the visit, from 1. */
  drain: number;
  role: 'reading' | 'exact';
  flushIncluded: boolean;
  /** mL of flush in the bag; 0 when none is in it. */
  flushMl: number;
} & (
  | { method: 'scale'; grossG: number; tareG: number; densityGPerMl: number }
  | { method: 'bagMarks' | 'jug'; volumeMl: number }
);

/** What a fill put in, as the nurse confirms it; `notKnown` is a fact, never a zero. */
export type Infused =
  | { basis: 'wholeBag'; labelledMl: number }
  | { basis: 'computed'; labelledMl: number; bagExcessMl: number; flushMl: number; leftInBagMl: number }
  | { basis: 'stated'; volumeMl: number }
  | { basis: 'notKnown' };
