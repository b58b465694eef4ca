import {
  type BedsideState,
  canonical,
  type Entry,
  type EpochMs,
  type Folded,
  fold,
  nextChangeAt,
  settle,
  type WardPolicy,
} from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { rebuildStatement } from './append.sql.ts';
import { NOW_MS } from './instants.ts';
import type { Policies } from './policies.ts';
import { allRows } from './rows/folded-rows.ts';
import { wardLyingIn } from './rows/stays.ts';
import { FOLDED_TABLE_NAMES } from './rows/tables.ts';
import { readHistory } from './standing.ts';
import { bedsideRow } from './write.ts';

/** The bedside, locked, with the ward of the patient's newest entry and the settings of that ward as it was written. */
type Found = {
  version: number;
  newestWardId: string;
  settingsThen: number;
  formularyVersion: number;
  now: EpochMs;
};

/** $1 site, $2 patient */
const TAKE = `
SELECT bedside.version, newest.ward_id AS "newestWardId", site.formulary_version AS "formularyVersion", ${NOW_MS} AS now,
  (SELECT max(settings.version)
    FROM ward_settings AS settings
    LEFT JOIN entry AS changed ON changed.site_id = settings.site_id AND changed.id = settings.entry_id
    WHERE settings.site_id = newest.site_id AND settings.ward_id = newest.ward_id
      AND (settings.entry_id IS NULL OR changed.position < newest.position)) AS "settingsThen"
FROM bedside
JOIN site ON site.id = bedside.site_id
JOIN entry AS newest ON newest.site_id = bedside.site_id AND newest.patient_id = bedside.patient_id
  AND newest.sequence = bedside.version
WHERE bedside.site_id = $1 AND bedside.patient_id = $2
FOR NO KEY UPDATE OF bedside`;

/** $1 site, $2 ward */
const SETTINGS_NOW = 'SELECT settings_version AS "settingsVersion" FROM ward WHERE site_id = $1 AND id = $2';

const PATIENTS = `
SELECT patient.id FROM patient JOIN bedside ON bedside.site_id = patient.site_id AND bedside.patient_id = patient.id
WHERE patient.site_id = $1 AND patient.erased_at IS NULL AND bedside.version > 0 ORDER BY patient.id`;

/**
 * Makes bedsides and all that is folded beside them anew from the entries. It may run while the ward works: each
 * patient is taken by itself, and what comes out the same is not written. Patients erased by law are left out.
 * @returns how many patients were folded
 */
export async function rebuild(
  pool: Pool,
  policies: Policies,
  siteId: string,
  onProgress: (done: number, of: number) => void = () => {},
): Promise<number> {
  const { rows } = await pool.query<{ id: string }>(PATIENTS, [siteId]);
  for (const [index, { id }] of rows.entries()) {
    await rebuildPatient(pool, policies, siteId, id);
    onProgress(index + 1, rows.length);
  }
  return rows.length;
}

async function rebuildPatient(pool: Pool, policies: Policies, siteId: string, patientId: string): Promise<void> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    await rebuildIn(client, policies, siteId, patientId);
    await client.query('COMMIT');
    client.release();
  } catch (error) {
    client.release(error as Error);
    throw error;
  }
}

/**
 * Makes one bedside anew within a transaction, which holds its lock from then on.
 * @returns the state as it stands now
 * @throws when the bedside does not end with the patient's newest entry
 */
export async function rebuildIn(
  client: PoolClient,
  policies: Policies,
  siteId: string,
  patientId: string,
): Promise<BedsideState> {
  const { rows } = await client.query<Found>(TAKE, [siteId, patientId]);
  const found = rows[0];
  if (found === undefined) throw new Error(`The bedside of patient ${patientId} does not end with its newest entry.`);
  const entries = await readHistory(client, siteId, patientId);
  const policy = await policyOver(client, policies, siteId, entries, found);
  const { state, dwells }: Folded = fold(patientId, entries, policy);
  const folded = allRows({ siteId, patientId, policy }, entries, dwells);
  await client.query({
    ...rebuildStatement(),
    values: [
      siteId,
      1,
      JSON.stringify([
        bedsideRow({
          patientId,
          seen: found.version,
          version: found.version,
          state,
          nextChangeAt: lookAgainAt(state, found.now, policy),
        }),
      ]),
      ...FOLDED_TABLE_NAMES.map((table) => JSON.stringify(folded[table])),
    ],
  });
  return state;
}

/**
 * The settings that a patient's whole record is folded under: whoever lies on a ward stands under that ward's of now;
 * whoever lies nowhere, under those of the last entry's ward as they were when it was written, for new ones are none of
 * that patient's any more.
 */
async function policyOver(
  client: PoolClient,
  policies: Policies,
  siteId: string,
  entries: readonly Entry[],
  { newestWardId, settingsThen, formularyVersion }: Found,
): Promise<WardPolicy> {
  const lyingIn = wardLyingIn(canonical(entries));
  if (lyingIn === null)
    return policies.of(client, siteId, newestWardId, { settingsVersion: settingsThen, formularyVersion });
  const { rows } = await client.query<{ settingsVersion: number }>(SETTINGS_NOW, [siteId, lyingIn]);
  return policies.of(client, siteId, lyingIn, { settingsVersion: rows[0]!.settingsVersion, formularyVersion });
}

/** When the alarms look at a bedside that was folded anew: at once where the tool has not yet said what it must. */
export function lookAgainAt(state: BedsideState, now: EpochMs, policy: WardPolicy): EpochMs | null {
  if (state.stay === null) return null;
  return settle(state, now, policy).length > 0 ? now : nextChangeAt(state, now, policy);
}
