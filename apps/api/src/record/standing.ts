import type { BedsideState, Entry, EpochMs, WardPolicy } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import type { Policies } from './policies.ts';
import { READ_BY_IDS, READ_PATIENT, READ_STANDING, READ_STANDING_ENTRIES } from './statements.sql.ts';
import { foldable, type StoredEntry } from './stored-entry.ts';

export type Queryable = Pick<Pool | PoolClient, 'query'>;

/** Where a bedside stands when a decision is made. */
export type Standing = {
  /** The database's clock: it is the ward's. */
  now: EpochMs;
  policy: WardPolicy;
  /** Sequence of the patient's newest entry; a write names it. */
  version: number;
  /** The ward that the patient lies in; null: in none. */
  wardId: string | null;
  foldVersion: number;
  /** null before the first entry. */
  state: BedsideState | null;
  /** When the alarms look at it again. */
  nextChangeAt: EpochMs | null;
  patientKnown: boolean;
  bedsideExists: boolean;
  /** Of the hospital's solutions, products and recalls. */
  formularyVersion: number;
  /** The ward's position. */
  position: number;
};

type StandingRow = Omit<Standing, 'policy'> & { settingsVersion: number };

/** Reads what a decision rests on; null where there is no such ward. */
export async function readStanding(
  db: Queryable,
  policies: Policies,
  siteId: string,
  wardId: string,
  patientId: string | null,
): Promise<Standing | null> {
  const { rows } = await db.query<StandingRow>({ ...READ_STANDING, values: [siteId, wardId, patientId] });
  const row = rows[0];
  if (row === undefined) return null;
  const { settingsVersion, ...rest } = row;
  const versions = { settingsVersion, formularyVersion: rest.formularyVersion };
  return { ...rest, policy: await policies.of(db, siteId, wardId, versions) };
}

/** All entries of a patient as the fold reads them. */
export async function readHistory(db: Queryable, siteId: string, patientId: string): Promise<Entry[]> {
  const { rows } = await db.query<StoredEntry>({ ...READ_PATIENT, values: [siteId, patientId] });
  return rows.map(foldable);
}

/** The entries that say where a patient lies and what is prescribed, with the corrections of any. */
export async function readStandingEntries(db: Queryable, siteId: string, patientId: string): Promise<Entry[]> {
  const { rows } = await db.query<StoredEntry>({ ...READ_STANDING_ENTRIES, values: [siteId, patientId] });
  return rows.map(foldable);
}

/** Entries by id, wherever in the hospital they stand. */
export async function readByIds(db: Queryable, siteId: string, ids: readonly string[]): Promise<StoredEntry[]> {
  const { rows } = await db.query<StoredEntry>({ ...READ_BY_IDS, values: [siteId, ids] });
  return rows;
}
