import type { Apply } from './apply.ts';

/** A new revision acts from the next fill; it puts a discontinued prescription in force again, but lifts no hold. */
export const applyPrescribed: Apply<'prescribed'> = (state, entry) => ({
  ...state,
  prescription: {
    id: entry.id,
    number: (state.prescription?.number ?? 0) + 1,
    ...entry.payload,
    prescribedAt: entry.happenedAt,
    prescribedBy: entry.author,
  },
  discontinuedAt: null,
});

export const applyHeld: Apply<'held'> = (state, entry) => ({
  ...state,
  hold: { since: entry.happenedAt, reason: entry.payload.reason, reviewBy: entry.payload.reviewBy },
});

export const applyHoldLifted: Apply<'holdLifted'> = (state, entry) => ({
  ...state,
  hold: null,
  keptEmptyUntil: entry.happenedAt,
});

export const applyDiscontinued: Apply<'discontinued'> = (state, entry) => ({
  ...state,
  discontinuedAt: entry.happenedAt,
});
