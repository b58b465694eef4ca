import { type Entry, lotKey } from '@slackwater/domain';
import { iso } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

/** The bags that entries say were checked, and those that were filled from: by their lots who had them is found. */
export function bagRows(siteId: string, patientId: string, entries: readonly Entry[]): FoldedRow<'bag_use'>[] {
  return entries.flatMap((entry): FoldedRow<'bag_use'>[] => {
    if (entry.kind !== 'prepare' && entry.kind !== 'startFill') return [];
    const { bag } = entry.payload;
    // without its lot a bag that was only checked is of no use to anybody
    if (bag === null || entry.visitId === null || (entry.kind === 'prepare' && bag.lot === null)) return [];
    return [
      {
        site_id: siteId,
        id: entry.id,
        patient_id: patientId,
        ward_id: entry.wardId,
        visit_id: entry.visitId,
        at: iso(entry.happenedAt),
        filled: entry.kind === 'startFill',
        solution_id: bag.solutionId,
        labelled_ml: bag.labelledMl,
        expires_on: bag.expiresOn,
        lot: bag.lot,
        lot_key: bag.lot === null ? null : lotKey(bag.lot),
        author_id: entry.author,
      },
    ];
  });
}
