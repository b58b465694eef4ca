import { formatClock } from '../words/numbers.ts';
import { textOf } from './fact-words.ts';
import type { AlertRule } from './rule.ts';

/** Each measurement outside the limits is said once, and the next one answers it: single figures do not flutter. */
export const pressureOutside: AlertRule = {
  spans: ({ bloodPressure, prescription }) => {
    if (bloodPressure === null || prescription === null) return [];
    const { systolicMmHg, diastolicMmHg, at } = bloodPressure;
    const { systolicLowMmHg: low, systolicHighMmHg: high } = prescription.limits;
    const isLow = low !== null && systolicMmHg < low;
    if (!isLow && (high === null || systolicMmHg <= high)) return [];
    const facts = { systolicMmHg, diastolicMmHg, limitMmHg: isLow ? low : high, side: isLow ? 'below' : 'above', at };
    return [{ cause: `pressure-${at}`, rank: 'medium', since: at, until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: "The last systolic blood pressure lies outside the patient's own limits.",
  ends: 'The next blood pressure is recorded.',
  settings: [],
  why: (facts, policy) =>
    `${textOf(facts.systolicMmHg)}/${textOf(facts.diastolicMmHg)} mmHg at ${clock(facts.at, policy.zone)}, ${textOf(facts.side)} the limit of ${textOf(facts.limitMmHg)} mmHg.`,
  next: (facts) =>
    facts.side === 'below' ? 'Measure again. Call before a strong bag.' : 'Measure again, and tell the physician.',
  source: "The patient's limits, set by the physician. Int J Nephrol 2011:739794, Table 7.",
};

export const temperatureOutside: AlertRule = {
  spans: ({ temperature }, { settings }) => {
    if (temperature === null) return [];
    const { celsius, at } = temperature;
    const { temperatureLowC, temperatureHighC } = settings;
    const isLow = celsius < temperatureLowC;
    if (!isLow && celsius <= temperatureHighC) return [];
    const limitC = isLow ? temperatureLowC : temperatureHighC;
    const facts = { celsius, limitC, side: isLow ? 'below' : 'above', at };
    return [{ cause: `temperature-${at}`, rank: 'medium', since: at, until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'The last temperature lies outside the limits of the ward.',
  ends: 'The next temperature is recorded.',
  settings: ['temperatureLowC', 'temperatureHighC'],
  why: (facts, policy) =>
    `${textOf(facts.celsius)} °C at ${clock(facts.at, policy.zone)}, ${textOf(facts.side)} the limit of ${textOf(facts.limitC)} °C.`,
  next: () => 'Look at the patient, the exit site and the last bag; tell the physician.',
  source: "Int J Nephrol 2011:739794, Table 7: outside the limits, tell. The limits are the ward's, from memory.",
};

const clock = (at: unknown, zone: string): string =>
  typeof at === 'number' ? formatClock(at, zone) : 'a time not known';
