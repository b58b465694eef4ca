import { type BedsideState, type Entry, type EntryKind, type EpochMs, isStep, type Payloads } from '@slackwater/domain';
import { iso, isoOrNull } from '../instants.ts';
import type { FoldedRow } from './tables.ts';

type VisitFacts = {
  id: string;
  wardId: string;
  purpose: Payloads['prepare']['purpose'];
  startedAt: EpochMs;
  startedBy: string | null;
  ended: { at: EpochMs; how: 'closed' | 'stopped' } | null;
};

const row = (siteId: string, patientId: string, visit: VisitFacts): FoldedRow<'visit'> => ({
  site_id: siteId,
  id: visit.id,
  patient_id: patientId,
  ward_id: visit.wardId,
  purpose: visit.purpose,
  started_at: iso(visit.startedAt),
  started_by: visit.startedBy,
  ended_at: isoOrNull(visit.ended?.at ?? null),
  ended: visit.ended?.how ?? null,
});

/** The visits that these entries make, ended ones first: an open one may follow in the same statement. */
export function visitRows(siteId: string, patientId: string, entries: readonly Entry[]): FoldedRow<'visit'>[] {
  const visits = new Map<string, VisitFacts>();
  for (const entry of entries) {
    if (entry.visitId === null || !isStep(entry.kind)) continue;
    const visit = visits.get(entry.visitId) ?? begun(entry, entry.visitId);
    visits.set(entry.visitId, after(visit, entry));
  }
  return endedFirst([...visits.values()]).map((visit) => row(siteId, patientId, visit));
}

/** The visits that new entries began or ended, on the quick path: the rest is known from the state after them. */
export function visitRowsOf(
  siteId: string,
  patientId: string,
  entries: readonly Entry[],
  state: BedsideState,
): FoldedRow<'visit'>[] {
  const touched = new Map<string, VisitFacts>();
  for (const entry of entries) {
    if (entry.visitId === null || !changesRow(entry.kind)) continue;
    const known = [state.visit, state.lastVisit].find((visit) => visit?.id === entry.visitId);
    const visit =
      touched.get(entry.visitId) ??
      (known
        ? {
            id: known.id,
            wardId: entry.wardId,
            purpose: known.purpose,
            startedAt: known.startedAt,
            startedBy: known.startedBy,
            ended: null,
          }
        : begun(entry, entry.visitId));
    touched.set(entry.visitId, after(visit, entry));
  }
  return endedFirst([...touched.values()]).map((visit) => row(siteId, patientId, visit));
}

const changesRow = (kind: EntryKind) => kind === 'prepare' || kind === 'close' || kind === 'stop' || kind === 'resume';

const begun = (entry: Entry, id: string): VisitFacts => ({
  id,
  wardId: entry.wardId,
  purpose: entry.kind === 'prepare' ? entry.payload.purpose : 'exchange',
  startedAt: entry.happenedAt,
  startedBy: entry.author,
  ended: null,
});

function after(visit: VisitFacts, entry: Entry): VisitFacts {
  if (entry.kind === 'close') return { ...visit, ended: { at: entry.happenedAt, how: 'closed' } };
  if (entry.kind === 'stop') return { ...visit, ended: { at: entry.happenedAt, how: 'stopped' } };
  if (entry.kind === 'resume') return { ...visit, ended: null };
  return visit;
}

const endedFirst = (visits: readonly VisitFacts[]) =>
  visits.toSorted((a, b) => Number(a.ended === null) - Number(b.ended === null));
