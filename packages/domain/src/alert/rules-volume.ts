import type { BedsideState } from '../bedside/state.ts';
import type { Dwell } from '../dwell/dwell.ts';
import { shortfall } from '../dwell/short-drain.ts';
import { bagFor } from '../prescription/bag-for.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { mlOf, textOf } from './fact-words.ts';
import type { AlertRule, Facts, Span } from './rule.ts';

/**
 * The dwell that was drained last, to a stop. null while a drain runs, since its volume is still coming; where the flow
 * was ended on purpose, since the fluid left is then no surprise and its drain stays due; and for imported history.
 */
export function drainedLast(state: BedsideState): Dwell | null {
  if (state.visit?.state === 'draining') return null;
  const dwell = state.openDwell ?? state.lastDwells[0];
  if (dwell === undefined || dwell.imported) return null;
  return dwell.drains.at(-1)?.flow === 'stopped' ? dwell : null;
}

export const drainEndedAt = (dwell: Dwell, state: BedsideState): number =>
  dwell.drainedAt ?? dwell.drains.at(-1)?.endedAt ?? state.cavity.since;

/** A dwell of 2,000 mL is what the ward's limits in mL are for. */
export const LIMITS_FOR_ML = 2000;

export const drainShort: AlertRule = {
  spans: (state, { settings }) => {
    const dwell = drainedLast(state);
    if (dwell === null || dwell.emptyConfirmed !== null) return [];
    const { id, filledMl, drainedMl, expectedUfMl } = dwell;
    if (filledMl === null || drainedMl === null) return [];
    if (shortfall({ filledMl, drainedMl, expectedUfMl }, settings) === null) return [];
    // More than the call limit is an alert of its own, and says the same figures.
    if (filledMl - drainedMl > (settings.retainedCallMl * filledMl) / LIMITS_FOR_ML) return [];
    const expectedMl = expectedUfMl === null ? null : filledMl + expectedUfMl;
    const facts = { drainedMl, filledMl, expectedMl };
    return [{ cause: id, rank: 'medium', since: drainEndedAt(dwell, state), until: null, facts }];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'A drain that ran to a stop brought less than expected, or less than the share of the fill that the ward set.',
  ends: 'The next drain begins, or a person confirms that the cavity is empty.',
  settings: ['shortDrainBelowExpectedMl', 'shortDrainBelowFillPercent', 'retainedCallMl'],
  why: (facts) =>
    `${mlOf(facts.drainedMl)} came out, ${mlOf(facts.filledMl)} went in` +
    (facts.expectedMl === null ? '.' : `, about ${mlOf(facts.expectedMl)} was expected.`),
  next: () =>
    'Drain again: turn, sit up, kinks and closed clamps, bowels, fibrin. With breathlessness: do not fill, sit up, call.',
  source: 'Ward setting, computed from the published spread of ultrafiltration.',
};

/** What is inside by the book beyond the ordinary residual, against the fill that is inside or comes next. */
function excessSpan(state: BedsideState, policy: WardPolicy): (Span & { percent: number }) | null {
  const dwell = drainedLast(state);
  const { bookMl } = state.inside;
  const fillMl = fillInQuestion(state, policy);
  if (dwell === null || bookMl === null || fillMl === null) return null;
  const { residualMl } = policy.settings;
  const excessMl = bookMl - residualMl;
  const percent = (100 * excessMl) / fillMl;
  const facts = { bookMl, flowMl: state.inside.flowMl, residualMl, excessMl, fillMl, percent: Math.round(percent) };
  return { cause: dwell.id, rank: 'medium', since: drainEndedAt(dwell, state), until: null, facts, percent };
}

function fillInQuestion(state: BedsideState, policy: WardPolicy): number | null {
  const inside = state.cavity.state === 'holding' && state.openDwell === null ? state.cavity.fills : [];
  const insideMl = inside.reduce((sum, fill) => sum + (fill.filledMl ?? 0), 0);
  return insideMl > 0 ? insideMl : (bagFor(state, policy)?.fillMl ?? null);
}

const insideWhy = (facts: Facts): string =>
  `Probably inside by the book about ${mlOf(facts.bookMl)}, by the flow about ${mlOf(facts.flowMl)}; ` +
  `${mlOf(facts.excessMl)} above the ordinary ${mlOf(facts.residualMl)}, ${textOf(facts.percent)} % of a fill of ${mlOf(facts.fillMl)}.`;

const INSIDE_SOURCE = 'Ward setting, from memory, low confidence: the ward must set it.';

export const tooMuchInside: AlertRule = {
  spans: (state, policy) => {
    const excess = excessSpan(state, policy);
    const { guardAskPercent, guardStopPercent } = policy.settings;
    if (excess === null || excess.percent <= guardAskPercent || excess.percent > guardStopPercent) return [];
    const { percent: _, ...span } = excess;
    return [span];
  },
  staysUntilCleared: false,
  ranks: ['medium'],
  when: 'After a drain more is inside by the book, beyond the ordinary residual, than the first limit.',
  ends: 'The next drain begins, a person confirms that the cavity is empty, or it goes over to "Too much inside".',
  settings: ['residualMl', 'guardAskPercent', 'guardStopPercent'],
  why: insideWhy,
  next: () => 'Before a fill: drain again, turn; did it feel empty? A person may confirm that the cavity is empty.',
  source: INSIDE_SOURCE,
};

export const farTooMuchInside: AlertRule = {
  spans: (state, policy) => {
    const excess = excessSpan(state, policy);
    if (excess === null || excess.percent <= policy.settings.guardStopPercent) return [];
    const { percent: _, ...span } = excess;
    return [{ ...span, rank: 'high' }];
  },
  staysUntilCleared: false,
  ranks: ['high'],
  when: 'After a drain more is inside by the book, beyond the ordinary residual, than the second limit.',
  ends: 'The next drain begins, or a person confirms that the cavity is empty.',
  settings: ['residualMl', 'guardStopPercent'],
  why: insideWhy,
  next: () =>
    'No fill is offered: drain again, a smaller fill by prescription, or confirm empty with its reason. Pain, distension or breathlessness: call.',
  source: INSIDE_SOURCE,
};
