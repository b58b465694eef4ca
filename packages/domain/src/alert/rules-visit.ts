import type { Visit } from '../bedside/state.ts';
import { slowFillAfterMinutes } from '../dwell/flow-verdict.ts';
import { plusMinutes } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { WardSettings } from '../ward/settings.ts';
import { clockOf, minutesOf, mlOf, textOf } from './fact-words.ts';
import type { AlertRule, Facts, Span } from './rule.ts';

const WARD = 'Ward setting. Common practice.';

/** How long a visit may stand in a state, by the ward's settings; a drain has rules of its own. */
export function standingMinutes(state: Visit['state'], settings: WardSettings): number | null {
  switch (state) {
    case 'preparing':
      return settings.preparingMinutes;
    case 'connected':
      return settings.connectedMinutes;
    case 'draining':
      return null;
    case 'drained':
      return settings.drainedMinutes;
    case 'filling':
      return settings.fillingMinutes;
    case 'closing':
      return settings.closingMinutes;
  }
}

/** True some minutes after the visit came into its state, until it leaves it. */
function standing(visit: Visit, rank: Span['rank'], mostMinutes: number, untilMinutes: number | null): Span {
  const { id, state, since } = visit;
  return {
    cause: `${id}/${state}/${since}`,
    rank,
    since: plusMinutes(since, mostMinutes),
    until: untilMinutes === null ? null : plusMinutes(since, untilMinutes),
    facts: { visitId: id, state, stateSince: since, mostMinutes },
  };
}

const sinceAndMost = (facts: Facts, policy: WardPolicy) =>
  `since ${clockOf(facts.stateSince, policy)}; the ward allows ${minutesOf(facts.mostMinutes)}.`;

export const visitLeftStanding: AlertRule = {
  spans: ({ visit }, { settings }) => {
    if (visit === null || visit.state === 'filling') return [];
    const most = standingMinutes(visit.state, settings);
    return most === null ? [] : [standing(visit, 'medium', most, null)];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'A visit stands in one block, the drain and the fill aside, for longer than the ward allows.',
  ends: 'The visit goes on to the next block, or is stopped.',
  settings: ['preparingMinutes', 'connectedMinutes', 'drainedMinutes', 'closingMinutes'],
  why: (facts, policy) => `The visit is ${textOf(facts.state)} ${sinceAndMost(facts, policy)}`,
  next: () => 'Go to the bed: go on, or enter what was done, or stop the visit with a reason.',
  source: WARD,
};

export const fillLeftStanding: AlertRule = {
  spans: ({ visit }, { settings }) =>
    visit?.state === 'filling' ? [standing(visit, 'high', settings.fillingMinutes, null)] : [],
  staysUntilCleared: false,
  ranks: ['high'],
  when: 'A fill runs for longer than the ward allows.',
  ends: 'The end of the fill is entered.',
  settings: ['fillingMinutes'],
  why: (facts, policy) => `The fill runs ${sinceAndMost(facts, policy)}`,
  next: () => 'Go to the bed now: is the clamp closed, how much went in? Enter the end of the fill.',
  source: WARD,
};

export const fillSlow: AlertRule = {
  spans: ({ visit }, { settings }) => {
    if (visit?.state !== 'filling' || visit.fill === null) return [];
    const most = slowFillAfterMinutes(visit.fill.prescribedMl, settings);
    if (most >= settings.fillingMinutes) return [];
    const span = standing(visit, 'medium', most, settings.fillingMinutes);
    return [{ ...span, facts: { ...span.facts, fillMl: visit.fill.prescribedMl } }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'A fill runs in more slowly than the flow that the ward allows (20 min for 2,000 mL by default).',
  ends: 'The fill ends, or goes over to "Fill left running".',
  settings: ['slowFillMinutes', 'fillingMinutes'],
  why: (facts, policy) => `The fill of ${mlOf(facts.fillMl)} runs ${sinceAndMost(facts, policy)}`,
  next: () => 'Kinks and closed clamps, bag height, fibrin. If the drain was slow too: a clot or a kink.',
  source: 'Over 20 min for 2 L is slow, judged by the flow: common practice and teaching texts. Ward setting.',
};

export const drainSlow: AlertRule = {
  spans: ({ visit }, { settings }) =>
    visit?.state === 'draining'
      ? [standing(visit, 'medium', settings.slowDrainMinutes, settings.verySlowDrainMinutes)]
      : [],
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'A drain runs for longer than is usual.',
  ends: 'The drain ends, or goes over to "Drain does not end".',
  settings: ['slowDrainMinutes', 'verySlowDrainMinutes'],
  why: (facts, policy) => `The drain runs ${sinceAndMost(facts, policy)}`,
  next: () =>
    'Turn, sit up, kinks and closed clamps, bag below the abdomen, bowels, fibrin. With breathlessness: do not fill, sit up, call.',
  source: 'A drain over 30 min is noted: teaching texts. Ward setting.',
};

export const drainVerySlow: AlertRule = {
  spans: ({ visit }, { settings }) =>
    visit?.state === 'draining' ? [standing(visit, 'high', settings.verySlowDrainMinutes, null)] : [],
  staysUntilCleared: false,
  ranks: ['high'],
  when: 'A drain runs for so long that the outflow counts as failing.',
  ends: 'The drain ends.',
  settings: ['verySlowDrainMinutes'],
  why: (facts, policy) => `The drain runs ${sinceAndMost(facts, policy)}`,
  next: () =>
    'Call the physician about poor flow. Poor both ways: clot or kink. Only the outflow poor: position, bowels, omentum.',
  source:
    'Not back within 45 min, consistently, is outflow failure: American Journal of Kidney Diseases core curriculum, as summarised. Ward setting.',
};
