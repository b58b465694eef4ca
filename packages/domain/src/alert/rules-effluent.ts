import type { BedsideState } from '../bedside/state.ts';
import type { DrainOut } from '../dwell/dwell.ts';
import type { Appearance } from '../effluent/effluent.ts';
import { clockOf, textOf } from './fact-words.ts';
import type { AlertRule } from './rule.ts';

/** The drains that the bedside still holds; imported history raises no alert. */
function drainsOf(state: BedsideState): readonly DrainOut[] {
  const open = state.openDwell?.drains ?? [];
  const past = state.lastDwells.filter((dwell) => !dwell.imported).flatMap((dwell) => dwell.drains);
  const seen = new Set<string>();
  return [...open, ...past].filter((drain) => !seen.has(drain.entryId) && seen.add(drain.entryId));
}

/** High from the drain's start, one alert a drain, until a person clears it: no later clear drain unsays it. */
const seenIn =
  (...appearances: readonly Appearance[]): AlertRule['spans'] =>
  (state) =>
    drainsOf(state).flatMap((drain) => {
      const seen = appearances.filter((appearance) => drain.appearance.includes(appearance));
      if (seen.length === 0) return [];
      const facts = { drainStartedAt: drain.startedAt, appearance: seen.join(', ') };
      return [{ cause: drain.entryId, rank: 'high' as const, since: drain.startedAt, until: null, facts }];
    });

const BY_A_PERSON = 'A person clears it with a reason; no later clear drain does.';

const why: AlertRule['why'] = (facts, policy) =>
  `The drain of ${clockOf(facts.drainStartedAt, policy)} looks ${textOf(facts.appearance)}.`;

export const effluentCloudy: AlertRule = {
  spans: seenIn('cloudy', 'milky'),
  staysUntilCleared: true,
  ranks: ['high'],
  when: 'A drain looks cloudy or milky.',
  ends: BY_A_PERSON,
  settings: [],
  title: 'Cloudy drain',
  why: (facts, policy) =>
    `${why(facts, policy)} ${facts.appearance === 'milky' ? 'Chyle or peritonitis.' : 'Peritonitis until excluded.'}`,
  next: () =>
    'Keep the bag. Cell count with differential, Gram stain, culture (blood-culture bottles, 5–10 mL each, before any ' +
    'antibiotic) to the laboratory within 6 h, kept at 37 °C; if milky also triglyceride. Tell the physician.',
  source:
    'ISPD 2022 (Perit Dial Int 2022;42:110–153), overview; RCP review, Box 2. Milky: J Jpn Soc Dial Ther 1994;28:1179.',
};

export const effluentBloody: AlertRule = {
  spans: seenIn('bloody'),
  staysUntilCleared: true,
  ranks: ['high'],
  when: 'A drain looks bloody.',
  ends: BY_A_PERSON,
  settings: [],
  title: 'Bloody drain',
  why,
  next: () =>
    'Look at the patient: heavy, not clearing, or unwell: call the physician. It often clears after insertion, strain or in menstruation.',
  source: 'Int J Nephrol 2011:739794, Table 7; teaching texts.',
};

export const effluentBowelOrBile: AlertRule = {
  spans: seenIn('brown', 'green'),
  staysUntilCleared: true,
  ranks: ['high'],
  when: 'A drain looks brown or green.',
  ends: BY_A_PERSON,
  settings: [],
  title: 'Drain looks of bowel or bile',
  why,
  next: () => 'An emergency: call the physician now. Do not fill. Keep the bag.',
  source: 'Brown or faecal: bowel, teaching text. Green: bile, from memory.',
};
