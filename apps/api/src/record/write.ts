import { randomBytes } from 'node:crypto';
import type { BedsideState, Entry, EpochMs, Supplies, WardSettings } from '@slackwater/domain';
import type { DeliveryRow } from '../alarms/hooks/message.ts';
import { appendStatement } from './append.sql.ts';
import { contentDigest, linkOf } from './chain.ts';
import { iso, isoOrNull } from './instants.ts';
import { notedOf } from './noted.ts';
import { FOLDED_TABLE_NAMES, type FoldedRows } from './rows/tables.ts';
import type { Queryable } from './standing.ts';

const SALT_BYTES = 16;

/** A version of the fold that no release has: whoever takes the bedside next folds it anew. */
export const TO_BE_FOLDED_ANEW = 0;

/** A bedside as it is to stand, if its version is still the one that was seen. */
export type BedsideWrite = {
  patientId: string;
  seen: number;
  /** New settings leave the version and take the fold away. Not needed by who holds the row's lock. */
  seenFold?: number;
  version: number;
  state: BedsideState;
  nextChangeAt: EpochMs | null;
};

export type Write = {
  siteId: string;
  /** The ward whose counter every entry passes; a transfer's second entry names another. */
  wardId: string;
  bedsides: readonly BedsideWrite[];
  /** `position` is the place among the patient's own entries; ignored where `patientId` is null. */
  entries: readonly Entry[];
  rows: FoldedRows;
  replace: boolean;
  settings: { version: number; settings: WardSettings; entryId: string } | null;
  /** A new version of the hospital's products and recalls. */
  supplies?: (Supplies & { version: number; entryId: string }) | null;
  /** Who lets these entries in for their author; the tool's own among them are nobody's. */
  releasedBy?: string | null;
  /** What is to be told outside because of these entries: it stands with them or not at all. */
  deliveries?: readonly DeliveryRow[];
};

/** Where the entries of one ward went: `before` is its position before them. */
type Passed = { wardId: string; before: number; amount: number; receivedAt: EpochMs };

export type Written = {
  receivedAt: EpochMs;
  /** The ward's position after the write. */
  position: number;
  positionOf: ReadonlyMap<string, number>;
};

/**
 * Writes entries, bedsides and the rows folded from them in one statement.
 * @returns null when a bedside or the settings had moved on: then nothing was written.
 */
export async function write(db: Queryable, what: Write): Promise<Written | null> {
  const wards = [...new Set([what.wardId, ...what.entries.map((entry) => entry.wardId)])].sort();
  if (wards.length > 2)
    throw new Error(`A batch passes one ward, a transfer two; this one passes ${wards.join(', ')}.`);
  const tables = FOLDED_TABLE_NAMES.filter((table) => what.replace || (what.rows[table]?.length ?? 0) > 0);
  const deliveries = what.deliveries ?? [];
  const supplies = what.supplies ?? null;
  const notes = notedOf(what.entries);
  const placed = places(what.entries);
  const { rows } = await db.query<Passed>({
    ...appendStatement({
      wards: wards.length === 2 ? 2 : 1,
      tables,
      replace: what.replace,
      settings: what.settings !== null,
      supplies: supplies !== null,
      deliveries: deliveries.length > 0,
      noted: notes.length > 0,
    }),
    values: [
      what.siteId,
      what.bedsides.length,
      JSON.stringify(what.bedsides.map(bedsideRow)),
      JSON.stringify(what.entries.map((entry) => entryRow(entry, placed.get(entry.id)!, what.releasedBy ?? null))),
      ...wards,
      ...(what.settings === null ? [] : [JSON.stringify(what.settings)]),
      ...(supplies === null ? [] : [JSON.stringify(supplies)]),
      ...(deliveries.length === 0 ? [] : [JSON.stringify(deliveries)]),
      ...(notes.length === 0 ? [] : [JSON.stringify(notes)]),
      ...tables.map((table) => JSON.stringify(what.rows[table] ?? [])),
    ],
  });
  const passed = rows.find((row) => row.wardId === what.wardId);
  if (passed === undefined) return null;
  const beforeOf = new Map(rows.map((row) => [row.wardId, row.before]));
  return {
    receivedAt: passed.receivedAt,
    position: passed.before + passed.amount,
    positionOf: new Map(
      what.entries.map((entry) => [entry.id, beforeOf.get(entry.wardId)! + placed.get(entry.id)!] as const),
    ),
  };
}

/** The place of each entry among those of its ward in this write, from 1. */
function places(entries: readonly Entry[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  return new Map(
    entries.map((entry) => {
      const place = (counts.get(entry.wardId) ?? 0) + 1;
      counts.set(entry.wardId, place);
      return [entry.id, place];
    }),
  );
}

/** A bedside as the statements read it. */
export const bedsideRow = ({ patientId, seen, seenFold, version, state, nextChangeAt }: BedsideWrite) => ({
  patient_id: patientId,
  seen,
  seen_fold: seenFold ?? null,
  version,
  ward_id: state.stay?.wardId ?? null,
  bed: state.stay?.bed ?? null,
  fold_version: state.foldVersion,
  state,
  next_change_at: isoOrNull(nextChangeAt),
});

function entryRow(entry: Entry, place: number, releaser: string | null) {
  const salt = randomBytes(SALT_BYTES);
  const bytes = Buffer.from(JSON.stringify(entry.payload), 'utf8');
  const content = contentDigest(salt, bytes);
  const target = targetOf(entry);
  const sequence = entry.patientId === null ? null : entry.position;
  const releasedBy = entry.author === null ? null : releaser;
  return {
    id: entry.id,
    ward_id: entry.wardId,
    place,
    patient_id: entry.patientId,
    sequence,
    visit_id: entry.visitId,
    kind: entry.kind,
    format: entry.format,
    happened_at: iso(entry.happenedAt),
    device_at: isoOrNull(entry.deviceAt),
    author_id: entry.author,
    after: entry.after,
    target,
    released_by: releasedBy,
    content_digest: content.toString('base64'),
    link: linkOf({ ...entry, sequence, target, releasedBy }, content).toString('base64'),
    salt: salt.toString('base64'),
    bytes: bytes.toString('base64'),
  };
}

const targetOf = (entry: Entry): string | null =>
  entry.kind === 'corrected' || entry.kind === 'retracted' ? entry.payload.target : null;
