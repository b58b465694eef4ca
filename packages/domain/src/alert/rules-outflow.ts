import type { BedsideState } from '../bedside/state.ts';
import type { Dwell } from '../dwell/dwell.ts';
import { flowVerdict, flowVerdictWords } from '../dwell/flow-verdict.ts';
import { shortfall } from '../dwell/short-drain.ts';
import type { WardSettings } from '../ward/settings.ts';
import { mlOf, textOf } from './fact-words.ts';
import type { AlertRule } from './rule.ts';
import { drainEndedAt, drainedLast, LIMITS_FOR_ML } from './rules-volume.ts';

/** The dwells that the bedside holds, newest first, whose flow ran to a stop; imported history says nothing here. */
const stoppedDwells = (state: BedsideState): readonly Dwell[] =>
  [...(state.openDwell === null ? [] : [state.openDwell]), ...state.lastDwells]
    .filter((dwell) => !dwell.imported && dwell.drains.at(-1)?.flow === 'stopped')
    .slice(0, 5);

const isShort = ({ filledMl, drainedMl, expectedUfMl }: Dwell, settings: WardSettings): boolean =>
  filledMl !== null && drainedMl !== null && shortfall({ filledMl, drainedMl, expectedUfMl }, settings) !== null;

/** Less than expected again and again: raised at the ward's number of five, ended one below it, so that it does not flutter. */
export const drainShortOften: AlertRule = {
  spans: (state, { settings }) => {
    if (drainedLast(state) === null) return [];
    const dwells = stoppedDwells(state);
    const short = dwells.filter((dwell) => isShort(dwell, settings));
    const newest = short[0];
    const open = state.alerts.some((alert) => alert.kind === 'drainShortOften');
    if (newest === undefined || short.length < settings.shortOftenOfFive - (open ? 1 : 0)) return [];
    const facts = { short: short.length, of: dwells.length, flow: flowVerdict(newest.fills, settings) };
    return [{ cause: newest.id, rank: 'medium', since: drainEndedAt(newest, state), until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'So many of the last five drains brought less than expected as the ward set (three by default).',
  ends: 'The next drain begins; after it, once two fewer than that are short.',
  settings: ['shortOftenOfFive', 'shortDrainBelowExpectedMl', 'shortDrainBelowFillPercent', 'slowFillMinutes'],
  why: (facts) => `${textOf(facts.short)} of the last ${textOf(facts.of)} drains brought less than expected.`,
  next: (facts) => `Call the physician about the outflow. ${flowVerdictWords(facts.flow)}`,
  source:
    'Consistently incomplete recovery is outflow failure: American Journal of Kidney Diseases core curriculum, as summarised. Ward setting.',
};

/** A dwell that kept more than the ward's limit, scaled with the fill; whoever confirms empty leaves the litre absorbed. */
export const dwellRetained: AlertRule = {
  spans: (state, { settings }) => {
    const dwell = drainedLast(state);
    if (dwell === null || dwell.filledMl === null || dwell.drainedMl === null) return [];
    const { id, filledMl, drainedMl } = dwell;
    const callAboveMl = (settings.retainedCallMl * filledMl) / LIMITS_FOR_ML;
    const retainedMl = filledMl - drainedMl;
    if (retainedMl <= callAboveMl) return [];
    const facts = { filledMl, drainedMl, retainedMl, callAboveMl };
    return [{ cause: id, rank: 'high', since: drainEndedAt(dwell, state), until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['high'],
  when: 'One dwell, drained to a stop, retained more than the ward allows (1,000 mL of 2,000 by default).',
  ends: 'The next drain begins, or its measure says otherwise.',
  settings: ['retainedCallMl'],
  why: (facts) =>
    `${mlOf(facts.filledMl)} went in, ${mlOf(facts.drainedMl)} came out: retained ${mlOf(facts.retainedMl)}, the limit is ${mlOf(facts.callAboveMl)}.`,
  next: () =>
    'Call the physician. Drain again: turn, sit up, kinks and closed clamps. With breathlessness: do not fill, sit up, call.',
  source: 'Int J Nephrol 2011:739794, Table 7. Ward setting; scales with the fill.',
};

/** Acute prescriptions only: elsewhere two in a row happen by chance with a weak bag. */
export const retainedTwice: AlertRule = {
  spans: (state) => {
    if (state.prescription?.acute !== true || drainedLast(state) === null) return [];
    const dwells = stoppedDwells(state);
    const run = dwells.findIndex((dwell) => dwell.drainMinusFillMl === null || dwell.drainMinusFillMl >= 0);
    const retaining = run === -1 ? dwells : dwells.slice(0, run);
    const second = retaining.at(-2);
    if (second === undefined) return [];
    const retainedMl = -retaining.reduce((sum, dwell) => sum + (dwell.drainMinusFillMl ?? 0), 0);
    const facts = { dwells: retaining.length, retainedMl };
    return [{ cause: second.id, rank: 'medium', since: drainEndedAt(second, state), until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'Under an acute prescription two dwells running brought less out than went in.',
  ends: 'The next drain begins; after it, once as much comes out as went in.',
  settings: [],
  why: (facts) =>
    `${textOf(facts.dwells)} dwells running brought less out than in: retained ${mlOf(facts.retainedMl)}.`,
  next: () => 'Call the physician: acute prescription. Drain again, turn; look for what is kept inside.',
  source: 'Acute prescriptions: Int J Nephrol 2011:739794, Table 7.',
};
