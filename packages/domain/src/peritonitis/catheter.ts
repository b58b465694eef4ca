import type { IsoDate } from '../time/zone.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkDate, dayNumber } from '../units/dates.ts';
import type { Culture, Episode } from './episode.ts';
import { organisms } from './relation.ts';

export type CatheterInfection = { site: 'exit' | 'tunnel'; on: IsoDate; culture: Culture };

export type CatheterStory = {
  insertedOn: IsoDate | null;
  dialysisStartedOn: IsoDate | null;
  infections: readonly CatheterInfection[];
};

export type CatheterRelation = {
  /** With an exit-site or tunnel infection within three months, same organism or one sterile; null = cultures open. */
  catheterRelated: boolean | null;
  /** Within 30 days of insertion; null = insertion not known. */
  insertionRelated: boolean | null;
  /** Before dialysis began: counted apart; null = start not known. */
  beforeDialysis: boolean | null;
};

/** Settings; ISPD 2022, from memory. */
const INSERTION_RELATED_WITHIN_DAYS = 30;
const CATHETER_RELATED_WITHIN_MONTHS = 3;

/** What an episode has to do with the catheter, by dates and organisms. */
export const catheterRelation = (
  episode: Pick<Episode, 'diagnosedOn' | 'culture'>,
  story: CatheterStory,
): Computed<CatheterRelation> => {
  const { insertedOn, dialysisStartedOn, infections } = story;
  return unlessRefused(
    [
      ...checkDate('diagnosedOn', episode.diagnosedOn),
      ...(insertedOn === null ? [] : checkDate('insertedOn', insertedOn, { to: episode.diagnosedOn })),
      ...(dialysisStartedOn === null ? [] : checkDate('dialysisStartedOn', dialysisStartedOn)),
      ...infections.flatMap((infection, i) => checkDate(`infections[${i}].on`, infection.on)),
    ],
    () => {
      const near = infections.filter((infection) => isWithinMonths(infection.on, episode.diagnosedOn));
      return computed<CatheterRelation>({
        catheterRelated: anyTrue(near.map((infection) => likelySame(infection.culture, episode.culture))),
        insertionRelated:
          insertedOn === null
            ? null
            : dayNumber(episode.diagnosedOn) - dayNumber(insertedOn) <= INSERTION_RELATED_WITHIN_DAYS,
        beforeDialysis: dialysisStartedOn === null ? null : episode.diagnosedOn < dialysisStartedOn,
      });
    },
  );
};

const isWithinMonths = (earlier: IsoDate, later: IsoDate): boolean => {
  const last = Temporal.PlainDate.from(earlier).add({ months: CATHETER_RELATED_WITHIN_MONTHS }).toString();
  return earlier <= later && later <= last;
};

const likelySame = (a: Culture, b: Culture): boolean | null => {
  const open = (culture: Culture): boolean => culture.state === 'pending' || culture.state === 'notTaken';
  if (open(a) || open(b)) return null;
  if (a.state === 'sterile' && b.state === 'sterile') return false;
  return organisms(a, b) !== 'different';
};

/** True when any is, else not known when any is open, else false. */
const anyTrue = (answers: readonly (boolean | null)[]): boolean | null =>
  answers.includes(true) ? true : answers.includes(null) ? null : false;
