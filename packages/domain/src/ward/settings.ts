import type { Problem } from '../record/problem.ts';
import { ALERTING } from './settings/alerting.ts';
import { DRAIN_AND_FILL } from './settings/drain-and-fill.ts';
import { DUE_TIMES } from './settings/due-times.ts';
import { EXPECTED_ULTRAFILTRATION } from './settings/expected-ultrafiltration.ts';
import { INFECTION } from './settings/infection.ts';
import { OBSERVED } from './settings/observed.ts';
import { PRESCRIBING } from './settings/prescribing.ts';
import { TYPING } from './settings/typing.ts';
import { VISIT_LEFT } from './settings/visit-left.ts';

/** Every setting of a ward, with the range it may take and where its default is from. Defaults are for adults. */
export const SETTINGS = {
  ...EXPECTED_ULTRAFILTRATION,
  ...DRAIN_AND_FILL,
  ...VISIT_LEFT,
  ...DUE_TIMES,
  ...OBSERVED,
  ...INFECTION,
  ...PRESCRIBING,
  ...ALERTING,
  ...TYPING,
};

/** The ward's numbers; each name carries its unit. */
export type WardSettings = Record<keyof typeof SETTINGS, number>;

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
