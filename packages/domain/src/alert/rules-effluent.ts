import type { BedsideState } from '../bedside/state.ts';
import type { DrainOut } from '../dwell/dwell.ts';
import type { Appearance } from '../effluent/effluent.ts';
import { findingsOfAppearance } from '../effluent/finding.ts';
import { nextWords, RESPONSES } from '../effluent/responses.ts';
import { isKnownSuspicion } from '../peritonitis/opens-work-up.ts';
import type { AlertRank } from './alert.ts';
import { clockOf, textOf } from './fact-words.ts';
import type { AlertRule, Facts, Span } from './rule.ts';

/** The drains that the bedside still holds, newest first; imported history raises no alert. */
function drainsOf(state: BedsideState): readonly DrainOut[] {
  const open = state.openDwell?.drains ?? [];
  const past = state.lastDwells.filter((dwell) => !dwell.imported).flatMap((dwell) => dwell.drains);
  const seen = new Set<string>();
  return [...open, ...past]
    .filter((drain) => !seen.has(drain.entryId) && seen.add(drain.entryId))
    .sort((a, b) => b.startedAt - a.startedAt);
}

/** From the drain's start, one alert a drain, until a person clears it: no later clear drain unsays it. */
function spanOf(drain: DrainOut, seen: readonly Appearance[], rank: AlertRank): readonly Span[] {
  if (seen.length === 0) return [];
  const facts = { drainStartedAt: drain.startedAt, appearance: seen.join(', ') };
  return [{ cause: drain.entryId, rank, since: drain.startedAt, until: null, facts }];
}

const seenIn = (drain: DrainOut, ...appearances: readonly Appearance[]): readonly Appearance[] =>
  appearances.filter((appearance) => drain.appearance.includes(appearance));

const BY_A_PERSON = 'A person clears it with a reason; no later clear drain does.';

const why: AlertRule['why'] = (facts, policy) =>
  `The drain of ${clockOf(facts.drainStartedAt, policy)} looks ${textOf(facts.appearance)}.`;

/** The gravest of what was seen says what follows. */
const next: AlertRule['next'] = (facts, policy) => nextWords(gravestOf(facts), policy);

const gravestOf = ({ appearance }: Facts) =>
  findingsOfAppearance(textOf(appearance).split(', ') as Appearance[])[0] ?? 'cloudy';

/** One more cloudy drain of a suspicion that is being worked up, or of a peritonitis not yet clear, is no new alarm. */
export const effluentCloudy: AlertRule = {
  spans: (state) =>
    drainsOf(state).flatMap((drain) => {
      const seen = seenIn(drain, 'cloudy', 'milky');
      return seen.length === 0 || isKnownSuspicion(state, drain) ? [] : spanOf(drain, seen, 'high');
    }),
  staysUntilCleared: true,
  ranks: ['high'],
  when: 'A drain looks cloudy or milky, and no work-up speaks for it.',
  ends: BY_A_PERSON,
  settings: [],
  why: (facts, policy) =>
    `${why(facts, policy)} ${facts.appearance === 'milky' ? 'Chyle or peritonitis.' : 'Peritonitis until excluded.'}`,
  next,
  source: `${RESPONSES.cloudy.source} Milky: ${RESPONSES.milky.source}`,
};

/** A first bloody drain often clears; one after another does not. */
export const effluentBloody: AlertRule = {
  spans: (state) => {
    const drains = drainsOf(state);
    return drains.flatMap((drain, index) => {
      const before = drains.slice(index + 1).find(({ appearance }) => appearance.length > 0);
      const clears = before === undefined || !before.appearance.includes('bloody');
      return spanOf(drain, seenIn(drain, 'bloody'), clears ? 'medium' : 'high');
    });
  },
  staysUntilCleared: true,
  ranks: ['high', 'medium'],
  when: 'A drain looks bloody (medium), and so did the one before: it does not clear (high).',
  ends: BY_A_PERSON,
  settings: [],
  why,
  next,
  source: RESPONSES.bloody.source,
};

export const effluentBowelOrBile: AlertRule = {
  spans: (state) => drainsOf(state).flatMap((drain) => spanOf(drain, seenIn(drain, 'brown', 'green'), 'high')),
  staysUntilCleared: true,
  ranks: ['high'],
  when: 'A drain looks brown or faecal, or green.',
  ends: BY_A_PERSON,
  settings: [],
  why,
  next: (facts, policy) => `An emergency. ${next(facts, policy)}`,
  source: `${RESPONSES.brown.source} ${RESPONSES.green.source}`,
};
