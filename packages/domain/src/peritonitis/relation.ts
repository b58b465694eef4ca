import type { Problem } from '../record/problem.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkDate, dayNumber } from '../units/dates.ts';
import type { Culture, Episode } from './episode.ts';

/** What an episode is to the one before it. */
export type Relation = 'relapsing' | 'recurrent' | 'repeat' | 'new';

/** "Within four weeks of the end of treatment": the 28th day is within. A setting. */
const RELAPSE_WITHIN_DAYS = 28;

/**
 * Relation of an episode to the one before, by days since the end of its treatment and by organism.
 * Within 28 days: same organism or a sterile culture = relapsing; another organism = recurrent. Later: same organism =
 * repeat (from memory); anything else = a new episode. Sources: ISPD 2022.
 * @returns the relation; or the problem: a culture is still open, the earlier one is still treated, dates out of order
 */
export const relationTo = (
  before: Pick<Episode, 'treatedUntil' | 'culture'>,
  episode: Pick<Episode, 'diagnosedOn' | 'culture'>,
  withinDays: number = RELAPSE_WITHIN_DAYS,
): Computed<Relation> =>
  unlessRefused(
    [
      ...(before.treatedUntil === null ? [stillTreated] : checkDate('treatedUntil', before.treatedUntil)),
      ...checkDate('diagnosedOn', episode.diagnosedOn, before.treatedUntil ? { from: before.treatedUntil } : {}),
      ...openCulture('before.culture', before.culture),
      ...openCulture('culture', episode.culture),
    ],
    () => {
      const days = dayNumber(episode.diagnosedOn) - dayNumber(before.treatedUntil!);
      return computed(relationOf(days, organisms(before.culture, episode.culture), withinDays));
    },
  );

const relationOf = (days: number, match: Match, withinDays: number): Relation => {
  if (days <= withinDays) return match === 'different' ? 'recurrent' : 'relapsing';
  return match === 'same' ? 'repeat' : 'new';
};

export type Match = 'same' | 'different' | 'sterile';

/**
 * Whether two cultures grew the same: one organism in common is the same; `sterile` when either grew nothing.
 * Names are compared without case and outer spaces.
 */
export const organisms = (a: Culture, b: Culture): Match => {
  if (a.state !== 'grown' || b.state !== 'grown') return 'sterile';
  const named = new Set(a.organisms.map(normal));
  return b.organisms.some((organism) => named.has(normal(organism))) ? 'same' : 'different';
};

const normal = (organism: string): string => organism.trim().toLowerCase();

const openCulture = (field: string, culture: Culture): readonly Problem[] =>
  culture.state === 'sterile' || (culture.state === 'grown' && culture.organisms.length > 0)
    ? []
    : [
        {
          code: 'culture-open',
          field,
          value: culture.state,
          allowed: 'sterile, or grown with at least one organism',
          message: 'The relation to the episode before cannot be told until both cultures are known',
        },
      ];

const stillTreated: Problem = {
  code: 'still-treated',
  field: 'treatedUntil',
  value: null,
  allowed: 'the last day of treatment of the episode before',
  message: 'The episode before is still treated: this is not another one yet',
};
