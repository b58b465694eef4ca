import type { PatientIdentity } from './board-row.ts';

type Named = Pick<PatientIdentity, 'id' | 'family' | 'given'>;

/** Letters alone, without accents, in capitals. */
const folded = (name: string): string =>
  name
    .normalize('NFD')
    .replace(/[^\p{L}]/gu, '')
    .toUpperCase();

const isLike = (one: Named, other: Named): boolean => {
  const family = folded(one.family);
  const otherFamily = folded(other.family);
  if (family === otherFamily) return true;
  const isSameStart = family.slice(0, 3) === otherFamily.slice(0, 3);
  return isSameStart && folded(one.given)[0] === folded(other.given)[0];
};

/**
 * Patients whose names may be mistaken for each other: the same family name (accents, hyphens and case apart), or its
 * first three letters and the initial.
 * @returns by patient id the ids of those with a like name; patients without one are not in it.
 */
export function likeNames(patients: readonly Named[]): ReadonlyMap<string, readonly string[]> {
  const like = new Map<string, readonly string[]>();
  for (const patient of patients) {
    const others = patients
      .filter((other) => other.id !== patient.id && isLike(patient, other))
      .map((other) => other.id);
    if (others.length > 0) like.set(patient.id, others);
  }
  return like;
}
