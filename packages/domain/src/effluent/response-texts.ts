import type { Problem } from '../record/problem.ts';
import { FINDINGS, type Finding } from './finding.ts';

/** What a ward may word for itself of each response. */
export const RESPONSE_PARTS = ['doNow', 'tell', 'send'] as const;
export type ResponsePart = (typeof RESPONSE_PARTS)[number];

/** Names one text that a ward may word for itself: `cloudy.doNow`. */
export type ResponseKey = `${Finding}.${ResponsePart}`;

/** The texts that a ward has worded for itself; what is not in it is as the tool brings it. */
export type ResponseTexts = Readonly<Partial<Record<ResponseKey, string>>>;

/** Every key, finding by finding. */
export const RESPONSE_KEYS: readonly ResponseKey[] = FINDINGS.flatMap((finding) =>
  RESPONSE_PARTS.map((part) => `${finding}.${part}` as const),
);

const KEYS: ReadonlySet<string> = new Set(RESPONSE_KEYS);

export const isResponseKey = (key: string): key is ResponseKey => KEYS.has(key);

/** So long that it is still read at a bed. */
export const RESPONSE_MOST_CHARACTERS = 500;
const MOST_LINES = 8;

/** Letters, marks, digits, punctuation, symbols and spaces; nothing that hides or turns the direction of writing. */
const PRINTABLE = /^[\p{L}\p{M}\p{N}\p{P}\p{S}\p{Zs}\n]*$/u;

function problemOf(field: ResponseKey, value: unknown): Problem | null {
  const lines = typeof value === 'string' ? value.split('\n').length : 0;
  const fits =
    typeof value === 'string' &&
    value.length <= RESPONSE_MOST_CHARACTERS &&
    lines <= MOST_LINES &&
    PRINTABLE.test(value);
  if (fits) return null;
  const allowed = `printable text of at most ${RESPONSE_MOST_CHARACTERS} characters and ${MOST_LINES} lines; empty for the default`;
  return { code: 'out-of-range', field, value, allowed, message: `${field} does not fit; allowed is ${allowed}.` };
}

/**
 * The ward's texts with changes laid over them; an empty one gives the default back.
 * @returns the new texts and no problems, or the old ones and every problem: all or nothing.
 */
export function withTexts(
  texts: ResponseTexts,
  changes: Readonly<Partial<Record<ResponseKey, unknown>>>,
): { responses: ResponseTexts; problems: readonly Problem[] } {
  const changed = Object.entries(changes) as [ResponseKey, unknown][];
  const problems = changed.map(([field, value]) => problemOf(field, value)).filter((problem) => problem !== null);
  if (problems.length > 0) return { responses: texts, problems };
  const all = Object.entries({ ...texts, ...changes }) as [ResponseKey, string][];
  return { responses: Object.fromEntries(all.filter(([, text]) => text.trim() !== '')), problems };
}
