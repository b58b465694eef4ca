import type { Additive, WardSettings } from '@slackwater/domain';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { readDuration } from './read-duration.ts';

/** One additive as it stands in the form. */
export type AdditiveDraft = {
  what: string;
  amount: string;
  /** '' = nobody has chosen one yet: neither unit nor kind is guessed. */
  unit: NonNullable<Additive['unit']> | '';
  kind: Additive['kind'] | '';
  /** How long it must dwell, as people write it; '0 min' = it need not. */
  leastDwell: string;
};

export const NEW_ADDITIVE: AdditiveDraft = { what: '', amount: '', unit: '', kind: '', leastDwell: '' };

export const additiveDraft = ({ what, amount, unit, kind, minimumDwellMinutes }: Additive): AdditiveDraft => ({
  what,
  amount: amount === null ? '' : String(amount),
  unit: unit ?? '',
  kind,
  leastDwell: minimumDwellMinutes === null ? '' : formatMinutes(minimumDwellMinutes),
});

type Amount = { value: number; problem: null } | { value: null; problem: string | null };

/**
 * An amount as ordered: digits, and a point where there is a part. What could be read as ten or a thousand times as much
 * is answered with what to write (ISMP error-prone list: comma, naked point, trailing zero).
 */
export const readAmount = (typed: string): Amount => {
  const text = typed.trim();
  if (text === '') return { value: null, problem: null };
  const wrong = (problem: string) => ({ value: null, problem: `“${text}”: ${problem}` });
  if (/[,’' ]/.test(text)) return wrong('write it without comma or space: 1000 for a thousand, 0.5 for a half.');
  if (/^\.\d+$/.test(text)) return wrong(`write 0${text}.`);
  if (/^\d+\.\d*0$|^\d+\.$/.test(text)) return wrong(`write ${Number(text)}.`);
  if (!/^\d{1,7}(\.\d{1,3})?$/.test(text)) return wrong('write digits alone, at most three after a point.');
  const value = Number(text);
  return value > 0 && value <= 1_000_000 ? { value, problem: null } : wrong('allowed is 0.001 to 1,000,000.');
};

export const readLeastDwell = (typed: string, settings: WardSettings) =>
  readDuration(typed, 0, settings.dwellMostMinutes);

/** The form's line as an additive; null while something is missing or cannot be read. */
export const readAdditive = (draft: AdditiveDraft, settings: WardSettings): Additive | null => {
  const { unit, kind } = draft;
  const amount = readAmount(draft.amount).value;
  const least = readLeastDwell(draft.leastDwell, settings);
  const what = draft.what.trim();
  if (what === '' || amount === null || unit === '' || kind === '' || least.problem !== null) return null;
  if (kind === 'antibiotic' && least.minutes === null) return null;
  return { what, amount, unit, kind, minimumDwellMinutes: kind === 'antibiotic' ? least.minutes : null };
};

/** All of them, or null while one cannot be read. */
export const readAdditives = (drafts: readonly AdditiveDraft[], settings: WardSettings): readonly Additive[] | null => {
  const read = drafts.map((draft) => readAdditive(draft, settings)).filter((one) => one !== null);
  return read.length === drafts.length ? read : null;
};
