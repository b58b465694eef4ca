/**
 * The characters that a value may hold. N: digits · X: the 82 characters of GS1 (ISO/IEC 646 invariant, without space) ·
 * Y: 39 of them · Z: base64 for addresses. Source: GS1 General Specifications, figures "GS1 AI encodable character set
 * 82", "39" and "file-safe / URI-safe base64" (from memory; X and Y were compared with the published syntax dictionary).
 */
export type CharacterSet = 'N' | 'X' | 'Y' | 'Z';

const LETTERS_AND_DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789';

const MEMBERS: Record<CharacterSet, string> = {
  N: '0123456789',
  X: `${LETTERS_AND_DIGITS}abcdefghijklmnopqrstuvwxyz!"%&'()*+,-./:;<=>?_`,
  Y: `${LETTERS_AND_DIGITS}#-/`,
  Z: `${LETTERS_AND_DIGITS}abcdefghijklmnopqrstuvwxyz-_=`,
};

const CODES: Record<CharacterSet, ReadonlySet<number>> = {
  N: codesOf(MEMBERS.N),
  X: codesOf(MEMBERS.X),
  Y: codesOf(MEMBERS.Y),
  Z: codesOf(MEMBERS.Z),
};

function codesOf(members: string): ReadonlySet<number> {
  return new Set(Array.from(members, (character) => character.charCodeAt(0)));
}

/** What a set allows, in words. */
export const SET_WORDS: Record<CharacterSet, string> = {
  N: 'digits alone',
  X: 'letters without accents, digits and !"%&\'()*+,-./:;<=>?_',
  Y: 'capital letters, digits and # - /',
  Z: 'letters, digits and - _ =',
};

/** Index of the first character of `value`, from `from` to before `to`, that is not in the set; −1 = all are. */
export function firstOutside(set: CharacterSet, value: string, from = 0, to = value.length): number {
  const codes = CODES[set];
  for (let index = from; index < to; index += 1) {
    if (!codes.has(value.charCodeAt(index))) return index;
  }
  return -1;
}
