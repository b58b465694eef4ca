import type { Apply } from './apply.ts';

/** A newer question takes the place of an older one: it is about another bag, or the old answer was too old. */
export const applyAdditiveCheckAsked: Apply<'additiveCheckAsked'> = (
  state,
  { id, author, happenedAt, visitId, payload },
) => {
  const { visit } = state;
  if (visit === null || visit.id !== visitId || visit.state === 'filling') return state;
  const additiveCheck = { ...payload, askedId: id, askedAt: happenedAt, askedBy: author, checked: null };
  return { ...state, visit: { ...visit, additiveCheck } };
};

export const applyAdditiveChecked: Apply<'additiveChecked'> = (state, { author, happenedAt, receivedAt, payload }) => {
  const { visit } = state;
  if (visit?.additiveCheck?.askedId !== payload.askedId) return state;
  const { agrees, note } = payload;
  const checked = { by: author, at: happenedAt, receivedAt, agrees, note };
  return { ...state, visit: { ...visit, additiveCheck: { ...visit.additiveCheck, checked } } };
};
