import type { PatientIdentity } from './board-row.ts';

type Named = Pick<PatientIdentity, 'id' | 'family' | 'given'>;

/** Letters alone, without accents, in capitals. */
const folded = (name: string): string =>
  name
    .normalize('NFD')
    .replace(/[^\p{L}]/gu, '')
    .toUpperCase();

/** What of a name is compared. */
type Compared = { id: string; family: string; start: string; initial: string | undefined };

const comparedOf = ({ id, family, given }: Named): Compared => {
  const whole = folded(family);
  return { id, family: whole, start: whole.slice(0, 3), initial: folded(given)[0] };
};

const isLike = (one: Compared, other: Compared): boolean =>
  one.family === other.family || (one.start === other.start && one.initial === other.initial);

/**
 * Patients whose names may be mistaken for each other: the same family name (accents, hyphens and case apart), or its
 * first three letters and the initial.
 * @returns by patient id the ids of those with a like name; patients without one are not in it.
 */
export function likeNames(patients: readonly Named[]): ReadonlyMap<string, readonly string[]> {
  const like = new Map<string, readonly string[]>();
  // each name is folded once, not once beside every other
  const all = patients.map(comparedOf);
  for (const one of all) {
    const others = all.filter((other) => other.id !== one.id && isLike(one, other)).map((other) => other.id);
    if (others.length > 0) like.set(one.id, others);
  }
  return like;
}
