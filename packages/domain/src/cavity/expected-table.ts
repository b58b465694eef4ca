type Strength = '136' | '227' | '386';
type Hours = 1 | 2 | 4 | 8;

/** Names of the ward settings that hold the table of expected ultrafiltration. */
export type ExpectedUfKey = `uf${Strength}At${Hours}h${'Ml' | 'SdMl'}` | `ufIcodextrinAt10h${'Ml' | 'SdMl'}`;

export type ExpectedUfSettings = Record<ExpectedUfKey, number>;

/**
 * Expected ultrafiltration and its spread, mL, adults, 2 L in, by glucose strength (136 = 1.36 %) and hours of dwell.
 * Rounded from published means (crossover study of 23; La Milia et al., Perit Dial Int 2017;
 * PubMed 7474677) and from memory, until the patient's own correction is learned. The ward may set its own.
 */
export const EXPECTED_UF: ExpectedUfSettings = {
  uf136At1hMl: 60,
  uf136At1hSdMl: 150,
  uf136At2hMl: 80,
  uf136At2hSdMl: 175,
  uf136At4hMl: 50,
  uf136At4hSdMl: 200,
  uf136At8hMl: -100,
  uf136At8hSdMl: 250,
  uf227At1hMl: 200,
  uf227At1hSdMl: 150,
  uf227At2hMl: 300,
  uf227At2hSdMl: 175,
  uf227At4hMl: 350,
  uf227At4hSdMl: 200,
  uf227At8hMl: 200,
  uf227At8hSdMl: 300,
  uf386At1hMl: 430,
  uf386At1hSdMl: 200,
  uf386At2hMl: 650,
  uf386At2hSdMl: 225,
  uf386At4hMl: 800,
  uf386At4hSdMl: 250,
  uf386At8hMl: 700,
  uf386At8hSdMl: 350,
  ufIcodextrinAt10hMl: 500,
  ufIcodextrinAt10hSdMl: 300,
};

/** Anhydrous glucose of the table's strengths, g/L. */
export const TABLE_STRENGTHS = [
  { name: '136', glucoseGPerL: 13.6 },
  { name: '227', glucoseGPerL: 22.7 },
  { name: '386', glucoseGPerL: 38.6 },
] as const;

export const TABLE_HOURS = [1, 2, 4, 8] as const;
