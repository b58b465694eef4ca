/** What a unit measures, as powers of base quantities. Equivalents and osmoles are kept apart from moles on purpose. */
export type Dimension = Readonly<Record<Base, number>>;
type Base = 'metre' | 'gram' | 'second' | 'mole' | 'equivalent' | 'osmole';

export type Unit = {
  code: string;
  /** How many base units (metre, gram, second, mole, equivalent, osmole) one of it is. */
  magnitude: number;
  dimension: Dimension;
};

const NO_DIMENSION: Dimension = { metre: 0, gram: 0, second: 0, mole: 0, equivalent: 0, osmole: 0 };
const of = (powers: Partial<Record<Base, number>>): Dimension => ({ ...NO_DIMENSION, ...powers });

const PREFIXES: Readonly<Record<string, number>> = {
  k: 1e3,
  d: 1e-1,
  c: 1e-2,
  m: 1e-3,
  u: 1e-6,
  n: 1e-9,
  p: 1e-12,
  f: 1e-15,
};

const MINUTE_S = 60;
const HOUR_S = 60 * MINUTE_S;
const DAY_S = 24 * HOUR_S;
/** A pascal in base units: kg·m⁻¹·s⁻² with the gram as base. */
const PASCAL = 1e3;
const JOULE = 1e3;
const PRESSURE = of({ metre: -1, gram: 1, second: -2 });
const ENERGY = of({ metre: 2, gram: 1, second: -2 });

/** Atoms of UCUM that a dialysis ward's numbers use; `metric` ones take a prefix. Magnitudes: the UCUM tables. */
const ATOMS: Readonly<Record<string, { magnitude: number; dimension: Dimension; metric: boolean }>> = {
  '1': { magnitude: 1, dimension: NO_DIMENSION, metric: false },
  '%': { magnitude: 1e-2, dimension: NO_DIMENSION, metric: false },
  m: { magnitude: 1, dimension: of({ metre: 1 }), metric: true },
  g: { magnitude: 1, dimension: of({ gram: 1 }), metric: true },
  s: { magnitude: 1, dimension: of({ second: 1 }), metric: true },
  mol: { magnitude: 1, dimension: of({ mole: 1 }), metric: true },
  eq: { magnitude: 1, dimension: of({ equivalent: 1 }), metric: true },
  osm: { magnitude: 1, dimension: of({ osmole: 1 }), metric: true },
  L: { magnitude: 1e-3, dimension: of({ metre: 3 }), metric: true },
  l: { magnitude: 1e-3, dimension: of({ metre: 3 }), metric: true },
  min: { magnitude: MINUTE_S, dimension: of({ second: 1 }), metric: false },
  h: { magnitude: HOUR_S, dimension: of({ second: 1 }), metric: false },
  d: { magnitude: DAY_S, dimension: of({ second: 1 }), metric: false },
  wk: { magnitude: 7 * DAY_S, dimension: of({ second: 1 }), metric: false },
  Pa: { magnitude: PASCAL, dimension: PRESSURE, metric: true },
  'm[Hg]': { magnitude: 133.322e3 * PASCAL, dimension: PRESSURE, metric: true },
  'm[H2O]': { magnitude: 9.80665e3 * PASCAL, dimension: PRESSURE, metric: true },
  J: { magnitude: JOULE, dimension: ENERGY, metric: true },
  cal: { magnitude: 4.184 * JOULE, dimension: ENERGY, metric: true },
  '[in_i]': { magnitude: 0.0254, dimension: of({ metre: 1 }), metric: false },
  '[lb_av]': { magnitude: 453.59237, dimension: of({ gram: 1 }), metric: false },
};

const readSymbol = (symbol: string): { magnitude: number; dimension: Dimension } | null => {
  const atom = ATOMS[symbol];
  if (atom) return atom;
  const prefix = PREFIXES[symbol.slice(0, 1)];
  const rest = ATOMS[symbol.slice(1)];
  return prefix !== undefined && rest?.metric
    ? { magnitude: prefix * rest.magnitude, dimension: rest.dimension }
    : null;
};

const POWER_OF_TEN = /^10\*(-?\d+)$/;
const SYMBOL_WITH_EXPONENT = /^(.*?[A-Za-z%\]])(-?[1-9])?$/;

const readTerm = (term: string): { magnitude: number; dimension: Dimension; exponent: number } | null => {
  const power = POWER_OF_TEN.exec(term);
  if (power) return { magnitude: 10 ** Number(power[1]), dimension: NO_DIMENSION, exponent: 1 };
  if (term === '1') return { ...ATOMS['1']!, exponent: 1 };
  const match = SYMBOL_WITH_EXPONENT.exec(term);
  const symbol = match ? readSymbol(match[1]!) : null;
  return symbol ? { ...symbol, exponent: Number(match![2] ?? 1) } : null;
};

/**
 * Reads a unit code of UCUM (Unified Code for Units of Measure) as far as the ward's numbers need it: prefixes, the
 * atoms above, exponents, `.` and `/`, powers of ten (`mg/dL`, `umol/L`, `10*6/L`, `/uL`, `mL/min/{1.73_m2}`).
 * Annotations in braces carry no meaning, as in UCUM. Case matters.
 * @returns null for a code it cannot read: never a guess
 */
export const readUnit = (code: string): Unit | null => {
  const bare = code.replace(/\{[^{}]*\}/g, '');
  const pieces = bare.split(/([./])/);
  let magnitude = 1;
  let dimension = NO_DIMENSION;
  for (let at = 0; at < pieces.length; at += 2) {
    const text = pieces[at]!;
    const operator = at === 0 ? '.' : pieces[at - 1];
    const leadingSlash = at === 0 && text === '' && pieces.length > 1;
    const onlyAnnotation = text === '' && bare !== code && at === pieces.length - 1;
    const term = leadingSlash || onlyAnnotation ? readTerm('1') : readTerm(text);
    if (!term) return null;
    const exponent = operator === '/' ? -term.exponent : term.exponent;
    magnitude *= term.magnitude ** exponent;
    dimension = plus(dimension, term.dimension, exponent);
  }
  return { code, magnitude, dimension };
};

const plus = (a: Dimension, b: Dimension, times: number): Dimension => ({
  metre: a.metre + times * b.metre,
  gram: a.gram + times * b.gram,
  second: a.second + times * b.second,
  mole: a.mole + times * b.mole,
  equivalent: a.equivalent + times * b.equivalent,
  osmole: a.osmole + times * b.osmole,
});
