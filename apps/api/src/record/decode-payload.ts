import type { Additive, EntryKind } from '@slackwater/domain';

type Stored = Readonly<Record<string, unknown>>;

/**
 * A payload as it was stored, in today's shape. Additives were once text for a whole bag: such an entry says its text and
 * no amount, since an amount read out of words would be guessed.
 */
export function decodePayload(kind: EntryKind, payload: Stored): Stored {
  switch (kind) {
    case 'startFill':
      return withAdditives(payload);
    case 'prescribed':
      return { ...payload, items: (payload.items as Stored[]).map(withAdditives) };
    case 'ordered':
      return { ...payload, content: withAdditives(payload.content as Stored) };
    case 'corrected':
      return { ...payload, payload: decodeCorrected(payload.payload as Stored) };
    default:
      return payload;
  }
}

/** A correction does not say what kind its target is; its payload has that kind's fields. */
function decodeCorrected(payload: Stored): Stored {
  if (Array.isArray(payload.items)) return decodePayload('prescribed', payload);
  if (typeof payload.content === 'object' && payload.content !== null) return decodePayload('ordered', payload);
  return withAdditives(payload);
}

function withAdditives<T extends Stored>(holder: T): T {
  const { additives } = holder;
  if (additives === null) return { ...holder, additives: [] };
  return typeof additives === 'string' ? { ...holder, additives: [fromText(additives)] } : holder;
}

const fromText = (what: string): Additive => ({
  what,
  amount: null,
  unit: null,
  kind: 'other',
  minimumDwellMinutes: null,
});
