export const ADDITIVE_KINDS = ['antibiotic', 'insulin', 'heparin', 'potassium', 'other'] as const;
export type AdditiveKind = (typeof ADDITIVE_KINDS)[number];

/**
 * Amounts for the whole bag, or per litre as such orders are given ("heparin 500 units/L"): the tool repeats an order and
 * never turns one into the other. "Units" is written out (common practice: a lone U is read as a zero).
 */
export const ADDITIVE_UNITS = ['mg', 'g', 'units', 'mmol', 'mL', 'mg/L', 'units/L', 'mmol/L'] as const;
export type AdditiveUnit = (typeof ADDITIVE_UNITS)[number];

/** Something that is put into a bag before it is filled, as the physician ordered it. */
export type Additive = {
  /** The substance: "vancomycin". */
  what: string;
  /** null, as the unit, only in entries from before amounts were kept apart: there `what` holds the whole text. */
  amount: number | null;
  unit: AdditiveUnit | null;
  kind: AdditiveKind;
  /** Minutes that it must dwell at the least; an antibiotic says it, 0 = none is needed. null = nothing was said. */
  minimumDwellMinutes: number | null;
};

/** Whether two bags hold the same: the same additives in whatever order, to the letter and the digit. */
export const sameAdditives = (one: readonly Additive[], other: readonly Additive[]): boolean =>
  one.length === other.length && one.every((additive) => other.some((like) => isSame(additive, like)));

const isSame = (one: Additive, other: Additive): boolean =>
  one.what === other.what &&
  one.amount === other.amount &&
  one.unit === other.unit &&
  one.kind === other.kind &&
  one.minimumDwellMinutes === other.minimumDwellMinutes;

/** Minutes that the slowest of them must dwell; 0 = none needs any. */
export const leastDwellMinutes = (additives: readonly Additive[]): number =>
  Math.max(0, ...additives.map(({ minimumDwellMinutes }) => minimumDwellMinutes ?? 0));

export const hasInsulin = (additives: readonly Additive[]): boolean => additives.some(({ kind }) => kind === 'insulin');
