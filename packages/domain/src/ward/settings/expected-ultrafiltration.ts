import { EXPECTED_UF, type ExpectedUfKey } from '../../cavity/expected-table.ts';
import { type Setting, setting } from './setting.ts';

const EXPECTED_SOURCE =
  'Rounded from published means (a crossover study of 23; La Milia et al., Perit Dial Int 2017; PubMed 7474677) and from memory';

/** `uf227At4hSdMl` → "Expected ultrafiltration, 2.27 % glucose, 4 h, 2,000 mL in: spread". */
function expectedMeaning(key: string): string {
  const [, fluid = '', hours, spread] = /^uf(.+)At(\d+)h(Sd)?Ml$/.exec(key) ?? [];
  const name = fluid === 'Icodextrin' ? 'icodextrin 7.5 %' : `${fluid[0]}.${fluid.slice(1)} % glucose`;
  return `Expected ultrafiltration, ${name}, ${hours} h, 2,000 mL in${spread ? ': its spread' : ''}`;
}

/** The table of expected ultrafiltration and its spread, adults. */
export const EXPECTED_ULTRAFILTRATION = Object.fromEntries(
  Object.entries(EXPECTED_UF).map(([key, fallback]) => {
    const range = key.endsWith('SdMl') ? ([fallback, 30, 800] as const) : ([fallback, -1000, 2000] as const);
    return [key, setting(range, 'mL', 'M', EXPECTED_SOURCE, expectedMeaning(key))];
  }),
) as Record<ExpectedUfKey, Setting>;
