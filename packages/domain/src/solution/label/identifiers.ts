import type { CharacterSet } from './character-sets.ts';
import { IDENTIFIER_TABLE } from './identifier-table.ts';

/** One part of a value; only the last may vary in length. */
export type Part = {
  set: CharacterSet;
  least: number;
  most: number;
  /** Its last digit is a check digit, or it is a date YYMMDD. */
  holds: 'check' | 'date' | null;
};

/** One application identifier: how its value must look. */
export type Identifier = {
  /** 2 to 4 digits: `17`. */
  ai: string;
  means: string;
  parts: readonly Part[];
  /** Characters of the whole value. */
  least: number;
  most: number;
  /** Its length is known beforehand, so no separator need follow. */
  predefined: boolean;
};

/**
 * Beginnings of the identifiers whose length is predefined: for these alone an element ends without a separator.
 * Source: GS1 General Specifications, figure "Element strings with predefined length using GS1 Application Identifiers".
 */
const PREDEFINED: ReadonlySet<string> = new Set(
  '00 01 02 03 04 11 12 13 14 15 16 17 18 19 20 31 32 33 34 35 36 41'.split(' '),
);

const FORM = /(\[?)([NXYZ])(\.\.)?(\d+)( check| date)?/g;

function partsOf(form: string): readonly Part[] {
  return Array.from(form.matchAll(FORM), ([, optional, set, upTo, length, holds]) => ({
    set: set as CharacterSet,
    least: optional ? 0 : upTo ? 1 : Number(length),
    most: Number(length),
    holds: (holds?.trim() ?? null) as Part['holds'],
  }));
}

function* identifiersOf(range: string): Generator<string> {
  const [first = '', last = first] = range.split('-');
  for (let ai = Number(first); ai <= Number(last); ai += 1) yield String(ai).padStart(first.length, '0');
}

const sum = (lengths: readonly number[]): number => lengths.reduce((total, length) => total + length, 0);

/** All application identifiers by their digits. */
export const IDENTIFIERS: ReadonlyMap<string, Identifier> = new Map(
  IDENTIFIER_TABLE.flatMap(([range, form, means]) =>
    Array.from(identifiersOf(range), (ai) => {
      const parts = partsOf(form);
      const least = sum(parts.map((part) => part.least));
      const most = sum(parts.map((part) => part.most));
      return [ai, { ai, means, parts, least, most, predefined: PREDEFINED.has(ai.slice(0, 2)) }] as const;
    }),
  ),
);

/** The identifier that begins at a place of a text; null when none does. No identifier begins another, so it is unique. */
export function identifierAt(text: string, at: number): Identifier | null {
  for (let length = 2; length <= 4; length += 1) {
    const found = IDENTIFIERS.get(text.slice(at, at + length));
    if (found !== undefined) return found;
  }
  return null;
}
