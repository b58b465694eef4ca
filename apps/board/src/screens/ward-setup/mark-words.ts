/** Where a default is from, in words a ward can act on. */
export const MARK_WORDS = {
  P: 'published',
  W: 'teaching page',
  M: 'from memory: confirm it',
  C: 'computed',
  T: 'common practice',
} as const;
