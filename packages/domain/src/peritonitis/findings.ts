import type { Entry } from '../record/entry.ts';
import type { CellCount, Findings } from './criteria.ts';
import type { Culture } from './episode.ts';

/** What the laboratory has sent so far. */
export type LaboratoryResults = { count: CellCount | null; culture: Culture };

/**
 * Gathers what the bedside has recorded and the laboratory has sent, for the three criteria.
 * Cloudy: true once any drain was; false only if some were looked at and none was; else not known. Pain: true once any
 * pain was given; false only if it was asked for; never taken from silence, nor from a word that nobody watched.
 * @param entries those of the days in question, as they count after corrections
 */
export const findingsOf = (entries: readonly Entry[], results: LaboratoryResults): Findings => {
  const cloudy = entries.flatMap((entry) =>
    entry.kind === 'appearance' && entry.payload.appearance !== null
      ? [entry.payload.appearance.includes('cloudy')]
      : [],
  );
  const pain = entries.flatMap((entry) => {
    const said = entry.kind === 'comfort' ? (entry.payload.comfort?.pain ?? null) : null;
    return said === null ? [] : [said > 0];
  });
  return { cloudy: anyOf(cloudy), pain: anyOf(pain), ...results };
};

const anyOf = (answers: readonly boolean[]): boolean | null => (answers.length === 0 ? null : answers.includes(true));
