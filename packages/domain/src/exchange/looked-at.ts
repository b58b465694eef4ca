/** What the second person holds against the order. */
export const LOOKED_AT = ['patient', 'bag', 'additive', 'amount'] as const;
export type LookedAt = (typeof LOOKED_AT)[number];
