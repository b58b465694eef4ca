import type { Entry } from '@slackwater/domain';
import { iso } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

/** The stays that these entries make, ended ones first: the bed may be taken again in the same statement. */
export function stayRows(siteId: string, patientId: string, entries: readonly Entry[]): FoldedRow<'stay'>[] {
  const stays: FoldedRow<'stay'>[] = [];
  let dialysis: 'chronic' | 'acute' = 'chronic';
  const begin = (entry: Entry, bed: string) => {
    stays.push({
      site_id: siteId,
      id: entry.id,
      patient_id: patientId,
      ward_id: entry.wardId,
      bed,
      dialysis,
      from_at: iso(entry.happenedAt),
      to_at: null,
      ended: null,
    });
  };
  const change = (changes: Partial<FoldedRow<'stay'>>) => {
    const last = stays.at(-1);
    if (last !== undefined && last.to_at === null) stays[stays.length - 1] = { ...last, ...changes };
  };
  for (const entry of entries) {
    if (entry.kind === 'admitted') {
      dialysis = entry.payload.dialysis;
      begin(entry, entry.payload.bed);
    } else if (entry.kind === 'transferredOut') change({ to_at: iso(entry.happenedAt), ended: 'transferred' });
    else if (entry.kind === 'transferredIn') begin(entry, entry.payload.bed);
    else if (entry.kind === 'movedBed') change({ bed: entry.payload.bed });
    else if (entry.kind === 'discharged') change({ to_at: iso(entry.happenedAt), ended: 'discharged' });
  }
  return stays.toSorted((a, b) => Number(a.to_at === null) - Number(b.to_at === null));
}

/** The ward in which these entries leave their patient; null: in none. In canonical order. */
export function wardLyingIn(entries: readonly Entry[]): string | null {
  let wardId: string | null = null;
  for (const entry of entries) {
    if (entry.kind === 'admitted' || entry.kind === 'transferredIn') wardId = entry.wardId;
    else if (entry.kind === 'discharged') wardId = null;
  }
  return wardId;
}
