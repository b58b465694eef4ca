import type { PrescriptionItem, PrescriptionRevision } from './prescription.ts';

/**
 * The item after the last one that was filled, round the prescribed day; the first when that one is not in this
 * revision. null when the revision has no items.
 */
export function nextItem(revision: PrescriptionRevision, lastItemId: string | null): PrescriptionItem | null {
  const last = revision.items.findIndex((item) => item.id === lastItemId);
  return revision.items[(last + 1) % revision.items.length] ?? null;
}
