import { EXPECTED_UF, type ExpectedUfKey } from '../cavity/expected-table.ts';
import type { Problem } from '../record/problem.ts';
import type { Mark } from './mark.ts';
import type { WardSettings } from './policy.ts';

/** One number that the ward sets for itself. */
export type Setting = {
  default: number;
  /** Least and most that may be set, in `unit`. */
  min: number;
  max: number;
  unit: 'mL' | 'g' | 'g/mL' | 'g/L' | '%' | '°C' | 'min' | 'h' | 'days' | 'of 5' | 'of 10' | 'drains' | 'place';
  mark: Mark;
  source: string;
  meaning: string;
};

const setting = (
  [fallback, min, max]: readonly [number, number, number],
  unit: Setting['unit'],
  mark: Mark,
  source: string,
  meaning: string,
): Setting => ({ default: fallback, min, max, unit, mark, source, meaning });

const COMMON = 'Common practice';
const CHILDREN = 'Measured in 25 children: 79 ± 25 mL/m² (Adv Perit Dial 1999); the adult value is from memory';

const EXPECTED_SOURCE =
  'Rounded from published means (a crossover study of 23; La Milia et al., Perit Dial Int 2017; PubMed 7474677) and from memory';

/** `uf227At4hSdMl` → "Expected ultrafiltration, 2.27 % glucose, 4 h, 2,000 mL in: spread". */
function expectedMeaning(key: string): string {
  const [, fluid = '', hours, spread] = /^uf(.+)At(\d+)h(Sd)?Ml$/.exec(key) ?? [];
  const name = fluid === 'Icodextrin' ? 'icodextrin 7.5 %' : `${fluid[0]}.${fluid.slice(1)} % glucose`;
  return `Expected ultrafiltration, ${name}, ${hours} h, 2,000 mL in${spread ? ': its spread' : ''}`;
}

/** The table of expected ultrafiltration and its spread, adults. */
const EXPECTED = Object.fromEntries(
  Object.entries(EXPECTED_UF).map(([key, fallback]) => {
    const range = key.endsWith('SdMl') ? ([fallback, 30, 800] as const) : ([fallback, -1000, 2000] as const);
    return [key, setting(range, 'mL', 'M', EXPECTED_SOURCE, expectedMeaning(key))];
  }),
) as Record<ExpectedUfKey, Setting>;

/** Every setting of a ward, with the range it may take and where its default is from. Defaults are for adults. */
export const SETTINGS: Readonly<Record<keyof WardSettings, Setting>> = {
  ...EXPECTED,
  residualMl: setting([200, 0, 1000], 'mL', 'M', CHILDREN, 'What an ordinary complete drain leaves behind'),
  flushMl: setting(
    [100, 0, 500],
    'mL',
    'P',
    'Maharjan & Davenport, J Nephrol 2019 (doi 10.1007/s40620-019-00646-7)',
    'Run through the line into the drain bag before a fill',
  ),
  densityGPerMl: setting(
    [1, 0.95, 1.1],
    'g/mL',
    'T',
    'Common practice; fluid is about 1.00 to 1.02 g/mL (from memory)',
    'Turns the weight of a drain into its volume',
  ),
  measuresApartMl: setting(
    [150, 50, 500],
    'mL',
    'C',
    'Computed: measuring jugs and bag marks read to ± 50 mL',
    'Reading and exact measure further apart than this ask to look again',
  ),
  shortDrainBelowExpectedMl: setting(
    [400, 100, 1500],
    'mL',
    'C',
    'Computed from the published spread of ultrafiltration, 175 to 295 mL',
    'A drain further below the expected one is short (for a 2,000 mL fill; scales with the fill)',
  ),
  shortDrainBelowFillPercent: setting(
    [80, 50, 100],
    '%',
    'C',
    'Computed from the published spread of ultrafiltration, 175 to 295 mL',
    'A drain below this share of the fill is short',
  ),
  slowDrainMinutes: setting([30, 10, 120], 'min', 'W', 'Teaching texts', 'A drain longer than this is noted'),
  verySlowDrainMinutes: setting(
    [45, 15, 180],
    'min',
    'W',
    'American Journal of Kidney Diseases core curriculum, as summarised',
    'A drain longer than this is an alert of high rank',
  ),
  slowFillMinutes: setting([20, 5, 60], 'min', 'T', 'Common practice', 'A fill of 2,000 mL longer than this is slow'),
  preparingMinutes: setting([15, 5, 60], 'min', 'T', COMMON, 'A visit left preparing longer than this stands'),
  connectedMinutes: setting([10, 5, 60], 'min', 'T', COMMON, 'A visit left connected longer than this stands'),
  drainedMinutes: setting([15, 5, 60], 'min', 'T', COMMON, 'A visit left drained longer than this stands'),
  fillingMinutes: setting([30, 5, 90], 'min', 'T', COMMON, 'A fill left running longer than this stands'),
  shortOftenOfFive: setting([3, 2, 5], 'of 5', 'T', COMMON, 'So many short drains among the last five are said once'),
  strongBagGlucoseGPerL: setting(
    [35, 10, 60],
    'g/L',
    'T',
    'Common practice; 35 g/L takes in the 3.86 % class and not 2.27 %',
    'From this much anhydrous glucose a bag is strong: the blood pressure is asked for first',
  ),
  pressureOldMinutes: setting(
    [60, 10, 720],
    'min',
    'T',
    COMMON,
    'Before a strong bag a blood pressure older than this is too old: call first',
  ),
  glucoseOldMinutes: setting(
    [60, 10, 720],
    'min',
    'T',
    COMMON,
    'With diabetes a blood glucose older than this is asked for before an exchange',
  ),
  glucoseBlockMinutes: setting(
    [0, 0, 720],
    'min',
    'T',
    COMMON,
    'With diabetes no bag is prepared with a blood glucose older than this; 0 = it is only asked for',
  ),
  icodextrinCautionDays: setting(
    [14, 14, 60],
    'days',
    'M',
    'Product information of icodextrin, from memory: two weeks after the last dwell',
    'So long after icodextrin only a glucose-specific meter is used',
  ),
  temperatureLowC: setting([35, 30, 37], '°C', 'M', 'From memory', 'A temperature below this is said'),
  temperatureHighC: setting([38, 37, 42], '°C', 'M', 'From memory', 'A temperature above this is said'),
  acuteReviewHours: setting(
    [24, 4, 72],
    'h',
    'P',
    'Int J Nephrol 2011:739794, Table 7: an acute prescription is reviewed daily',
    'An acute prescription is to be reviewed within this',
  ),
  holdReviewMostHours: setting([72, 1, 336], 'h', 'T', COMMON, 'A hold is reviewed within this at the latest'),
  prescriptionReviewMostDays: setting(
    [90, 1, 365],
    'days',
    'T',
    COMMON,
    'A review of a prescription lies at most this far ahead',
  ),
  turnedOnSidePlace: setting([1, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "turn on the side"'),
  satUpPlace: setting([2, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "sit up"'),
  kinksAndClampsPlace: setting([3, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "kinks, closed clamps"'),
  bagBelowAbdomenPlace: setting([4, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "bag below the abdomen"'),
  bowelsPlace: setting([5, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "bowels"'),
  fibrinInLinePlace: setting([6, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "fibrin in the line"'),
  closingMinutes: setting([15, 5, 60], 'min', 'T', COMMON, 'A visit left closing longer than this stands'),
  guardAskPercent: setting(
    [25, 10, 100],
    '%',
    'M',
    'From memory, low confidence: the ward must set it',
    'More than this share of the fill above the residual asks before a fill',
  ),
  guardStopPercent: setting(
    [50, 20, 150],
    '%',
    'M',
    'From memory, low confidence: the ward must set it',
    'More than this share of the fill above the residual: no fill is offered',
  ),
  retainedCallMl: setting(
    [1000, 300, 2000],
    'mL',
    'P',
    'Int J Nephrol 2011:739794, Table 7',
    'One dwell that retains more than this: the physician is called (for a 2,000 mL fill; scales with the fill)',
  ),
  soonPercent: setting([10, 1, 50], '%', 'T', COMMON, 'A drain is due soon this share of the planned dwell before it'),
  soonLeastMinutes: setting([5, 0, 60], 'min', 'T', COMMON, 'Due soon begins at least this long before'),
  soonMostMinutes: setting([30, 5, 120], 'min', 'T', COMMON, 'Due soon begins at most this long before'),
  overduePercent: setting(
    [10, 1, 50],
    '%',
    'T',
    COMMON,
    'A drain is overdue this share of the planned dwell after due',
  ),
  overdueLeastMinutes: setting([10, 1, 60], 'min', 'T', COMMON, 'Overdue begins at least this long after due'),
  overdueMostMinutes: setting([60, 10, 240], 'min', 'T', COMMON, 'Overdue begins at most this long after due'),
  clockMinimumMinutes: setting([120, 0, 480], 'min', 'T', COMMON, 'By clock: the shortest dwell after a late fill'),
  clockFarHours: setting(
    [4, 1, 12],
    'h',
    'T',
    COMMON,
    'By clock: a time further than this beyond the planned dwell is not waited for, and the nurse is asked',
  ),
  fillAfterDrainMinutes: setting([30, 5, 240], 'min', 'T', COMMON, 'An empty cavity is to be filled this long after'),
  drainsAtOnce: setting([1, 1, 6], 'drains', 'T', COMMON, 'One nurse can run so many drains at once'),
  acknowledgeMostMinutes: setting([30, 5, 120], 'min', 'T', COMMON, 'An alert may be acknowledged for at most this'),
  escalateToChargeNurseMinutes: setting(
    [5, 1, 60],
    'min',
    'T',
    COMMON,
    'A high alert that nobody has goes to the charge nurse after this',
  ),
  escalateToPhysicianMinutes: setting(
    [15, 2, 120],
    'min',
    'T',
    COMMON,
    'A high alert that nobody has goes to the physician after this',
  ),
  countersignHours: setting([24, 1, 168], 'h', 'T', COMMON, 'A telephone order is to be countersigned within this'),
  severePainFrom: setting([7, 4, 10], 'of 10', 'T', COMMON, 'Pain from this on is severe: the physician is called'),
  newCatheterDays: setting(
    [30, 1, 90],
    'days',
    'M',
    'ISPD 2022 counts a peritonitis within 30 days as of the insertion; from memory',
    'A catheter is new for so long: sudden “urine” or watery stool may be bladder or bowel',
  ),
  sampleWithinMinutes: setting(
    [60, 10, 360],
    'min',
    'T',
    COMMON,
    'A suspected peritonitis without a sample after this is an alert',
  ),
  countWithinHours: setting(
    [6, 1, 48],
    'h',
    'T',
    COMMON,
    'A sample whose cell count is not reported after this is an alert',
  ),
  beforeAdmissionHours: setting(
    [24, 0, 168],
    'h',
    'T',
    COMMON,
    'Something seen at the bed may lie at most this long before the admission',
  ),
  aheadOfClockMinutes: setting([2, 0, 10], 'min', 'T', COMMON, 'An entry may lie at most this far ahead of the clock'),
  drainedMostMl: setting([6000, 1000, 10000], 'mL', 'T', COMMON, 'Most that may be typed as drained'),
  filledMostMl: setting([5000, 500, 10000], 'mL', 'T', COMMON, 'Most that may be typed as filled'),
  flushMostMl: setting([500, 100, 1000], 'mL', 'T', COMMON, 'Most that may be typed as flush'),
  urineMostMl: setting([10000, 1000, 20000], 'mL', 'T', COMMON, 'Most that may be typed as urine'),
  grossMostG: setting([10000, 1000, 20000], 'g', 'T', COMMON, 'Most that may be typed as gross weight'),
  tareMostG: setting([2000, 100, 5000], 'g', 'T', COMMON, 'Most that may be typed as tare'),
  dwellLeastMinutes: setting([10, 1, 60], 'min', 'T', COMMON, 'Shortest dwell that may be prescribed'),
  dwellMostMinutes: setting([1440, 60, 2880], 'min', 'T', COMMON, 'Longest dwell that may be prescribed'),
  antibioticDwellMinutes: setting(
    [360, 60, 1440],
    'min',
    'M',
    'RCP review, Box 2, and hospital guidelines, edition from memory: once a day in the bag, at least 6 h',
    'Offered as the least dwell of an antibiotic in the bag; the prescriber says it',
  ),
  secondPersonMinutes: setting(
    [2, 1, 10],
    'min',
    'T',
    COMMON,
    'A second person’s check of what is in the bag holds for so long',
  ),
};

const KEYS = Object.keys(SETTINGS) as (keyof WardSettings)[];

/** What a ward starts with. */
export const DEFAULT_SETTINGS: WardSettings = Object.fromEntries(
  KEYS.map((key) => [key, SETTINGS[key].default]),
) as WardSettings;

/** Pairs in which the first may not be above the second. */
const ORDERED: readonly (readonly [keyof WardSettings, keyof WardSettings])[] = [
  ['soonLeastMinutes', 'soonMostMinutes'],
  ['overdueLeastMinutes', 'overdueMostMinutes'],
  ['slowDrainMinutes', 'verySlowDrainMinutes'],
  ['slowFillMinutes', 'fillingMinutes'],
  ['temperatureLowC', 'temperatureHighC'],
  ['guardAskPercent', 'guardStopPercent'],
  ['escalateToChargeNurseMinutes', 'escalateToPhysicianMinutes'],
  ['dwellLeastMinutes', 'dwellMostMinutes'],
];

const isKey = (key: string): key is keyof WardSettings => Object.hasOwn(SETTINGS, key);

function problemOf(field: string, value: unknown): Problem | null {
  if (!isKey(field)) {
    return {
      code: 'unknown-setting',
      field,
      value,
      allowed: 'a setting of the ward',
      message: `There is no setting "${field}".`,
    };
  }
  const { min, max, unit } = SETTINGS[field];
  if (typeof value === 'number' && value >= min && value <= max) return null;
  const allowed = `${min} to ${max} ${unit}`;
  return {
    code: 'out-of-range',
    field,
    value,
    allowed,
    message: `${field} is ${String(value)}; allowed is ${allowed}.`,
  };
}

/**
 * The settings with changes laid over them.
 * @returns the new settings and no problems, or the old ones and every problem: all or nothing.
 */
export function withChanges(
  settings: WardSettings,
  changes: Readonly<Record<string, unknown>>,
): { settings: WardSettings; problems: readonly Problem[] } {
  const problems = Object.entries(changes)
    .map(([field, value]) => problemOf(field, value))
    .filter((problem) => problem !== null);
  const changed: WardSettings = { ...settings, ...(changes as Partial<WardSettings>) };
  if (problems.length === 0) {
    for (const [lower, upper] of ORDERED) {
      if (changed[lower] <= changed[upper]) continue;
      const allowed = `at most ${upper}, ${changed[upper]} ${SETTINGS[upper].unit}`;
      const message = `${lower} is ${changed[lower]}; allowed is ${allowed}.`;
      problems.push({ code: 'out-of-order', field: lower, value: changed[lower], allowed, message });
    }
  }
  return problems.length === 0 ? { settings: changed, problems } : { settings, problems };
}
