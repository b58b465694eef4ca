/** Rises whenever the same entries would fold to another state; a stored state of another version is folded anew. */
export const FOLD_VERSION = 11;
