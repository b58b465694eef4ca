import type { HandedOver, PatientIdentity } from '@slackwater/domain';
import { readDigits } from '../../ui/digits.ts';
import { EMPTY_INSTANT, readInstant } from '../bedside/shared/typed-instant.ts';

export type IdentityDraft = {
  family: string;
  given: string;
  dateOfBirth: string;
  gender: string;
  hospitalNumber: string;
  allergy: string;
  isolation: string;
  cautions: string;
};

export const EMPTY_IDENTITY: IdentityDraft = {
  family: '',
  given: '',
  dateOfBirth: '',
  gender: '',
  hospitalNumber: '',
  allergy: '',
  isolation: '',
  cautions: '',
};

const isDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && new Date(`${text}T00:00:00Z`).toJSON()?.slice(0, 10) === text;

/** What is wrong with a birth date; null when it is empty or right. */
export const birthProblem = (typed: string, today: string): string | null => {
  const text = typed.trim();
  if (text === '') return null;
  if (!isDate(text)) return `“${text}” is no date: write year-month-day, as in ${today}.`;
  return text > today ? `${text} lies ahead.` : null;
};

const orNull = (text: string): string | null => text.trim() || null;

/** The identity as it is written; null while something that it needs is missing. */
export const readIdentity = (draft: IdentityDraft, id: string, today: string): PatientIdentity | null => {
  const { family, given, dateOfBirth, gender, hospitalNumber } = draft;
  const needed = [family, given, dateOfBirth, gender, hospitalNumber].map((text) => text.trim());
  if (needed.some((text) => text === '') || birthProblem(dateOfBirth, today) !== null) return null;
  return {
    id,
    family: family.trim(),
    given: given.trim(),
    dateOfBirth: dateOfBirth.trim(),
    gender: gender.trim(),
    hospitalNumber: hospitalNumber.trim(),
    allergy: orNull(draft.allergy),
    isolation: orNull(draft.isolation),
    cautions: draft.cautions
      .split(',')
      .map((one) => one.trim())
      .filter((one) => one !== ''),
  };
};

export type InsideDraft = {
  what: 'empty' | 'known' | 'notKnown' | null;
  volume: string;
  solutionId: string | null;
  filledAt: typeof EMPTY_INSTANT;
};

export const EMPTY_INSIDE: InsideDraft = { what: null, volume: '', solutionId: null, filledAt: EMPTY_INSTANT };

/**
 * What came with the patient. "Not known" still takes what is known: a volume without a time, a time without a
 * strength. What nobody said stays null, never zero.
 *
 * @returns the payload, or why there is none yet
 */
export const readInside = (
  draft: InsideDraft,
  zone: string,
  filledMostMl: number,
): { inside: HandedOver; missing: null } | { inside: null; missing: string } => {
  const missing = (words: string) => ({ inside: null, missing: words });
  if (draft.what === null) return missing('what is inside');
  if (draft.what === 'empty') return { inside: { cavity: 'empty' }, missing: null };
  const volume = readDigits(draft.volume, { least: 1, most: filledMostMl, unit: 'mL' });
  const time = readInstant(draft.filledAt, zone);
  if (volume.problem !== null) return missing('a possible volume');
  if (time.problem !== null) return missing('a possible time');
  const holding = {
    cavity: 'holding' as const,
    solutionId: draft.solutionId,
    filledMl: volume.value,
    fillEndedAt: time.at,
  };
  if (draft.what === 'known') {
    const gaps = [
      volume.value === null ? 'the volume' : null,
      draft.solutionId === null ? 'the strength' : null,
      time.at === null ? 'the time' : null,
    ].filter((one) => one !== null);
    return gaps.length > 0 ? missing(`${gaps.join(', ')}, or say “not known”`) : { inside: holding, missing: null };
  }
  const nothing = volume.value === null && draft.solutionId === null && time.at === null;
  return { inside: nothing ? { cavity: 'notKnown' } : holding, missing: null };
};
