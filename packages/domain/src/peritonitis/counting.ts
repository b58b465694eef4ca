import type { Problem } from '../record/problem.ts';
import type { Episode } from './episode.ts';
import { type Relation, relationTo } from './relation.ts';

export type CountedEpisode = Episode & {
  relation: Relation | null;
  /** Counts in the rate: all but relapses; an episode whose relation is open counts until it is known. */
  counts: boolean;
  issues: readonly Problem[];
};

/**
 * All episodes with what each is to the one before of the same patient. A relapse is not a new episode; recurrence and
 * repeat are. Source: ISPD-based reference appendix on peritonitis rates.
 * @param episodes of any number of patients, in any order
 * @returns in order of patient and date
 */
export const countEpisodes = (episodes: readonly Episode[]): readonly CountedEpisode[] => {
  const ordered = [...episodes].sort(
    (a, b) => compare(a.patientId, b.patientId) || compare(a.diagnosedOn, b.diagnosedOn),
  );
  return ordered.map((episode, i) => {
    const before = ordered[i - 1];
    if (before?.patientId !== episode.patientId) return { ...episode, relation: 'new', counts: true, issues: [] };
    const relation = relationTo(before, episode);
    return { ...episode, relation: relation.value, counts: relation.value !== 'relapsing', issues: relation.issues };
  });
};

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
