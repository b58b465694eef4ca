import type { BedsView, OtherWardsView, WardView } from '@slackwater/contract';
import type { EpochMs, Role, WardPolicy } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { WardAccess } from '../../access/ward-access.ts';
import { noSuchWard } from '../../problems.ts';
import type { Policies } from '../../record/policies.ts';

type WardRow = {
  name: string;
  hospital: string;
  settings_version: number;
  formulary_version: number;
  seeded_ms: EpochMs | null;
  now_ms: EpochMs;
};

/** $1 site, $2 ward */
const WARD = {
  name: 'ward',
  text: `
    SELECT w.name, s.name AS hospital, w.settings_version, s.formulary_version,
      (extract(epoch FROM d.seeded_at) * 1000)::float8 AS seeded_ms, (extract(epoch FROM now()) * 1000)::float8 AS now_ms
    FROM ward w JOIN site s ON s.id = w.site_id LEFT JOIN demonstration d ON d.site_id = w.site_id
    WHERE w.site_id = $1 AND w.id = $2`,
};

/** $1 site, $2 ward */
const STAFF = {
  name: 'ward-staff',
  text: `
    SELECT a.id AS "accountId", a.name, r.role
    FROM account_role r JOIN account a ON a.site_id = r.site_id AND a.id = r.account_id
    WHERE r.site_id = $1 AND r.ward_id = $2 AND a.disabled_at IS NULL AND r.role <> 'wall'
    ORDER BY a.name, a.id`,
};

/** $1 site, $2 ward */
const BEDS = {
  name: 'ward-beds',
  text: `
    SELECT b.id AS bed, s.patient_id AS "patientId"
    FROM bed b
    LEFT JOIN stay s ON s.site_id = b.site_id AND s.ward_id = b.ward_id AND s.bed = b.id AND s.to_at IS NULL
    WHERE b.site_id = $1 AND b.ward_id = $2 AND b.retired_at IS NULL
    ORDER BY b.place, b.id`,
};

/** $1 site, $2 ward */
const OTHERS = {
  name: 'ward-others',
  text: `
    SELECT w.id, w.name, COALESCE((
      SELECT json_agg(b.id ORDER BY b.place, b.id) FROM bed b
      WHERE b.site_id = w.site_id AND b.ward_id = w.id AND b.retired_at IS NULL AND NOT EXISTS (
        SELECT FROM stay s
        WHERE s.site_id = b.site_id AND s.ward_id = b.ward_id AND s.bed = b.id AND s.to_at IS NULL
      )
    ), '[]') AS "freeBeds"
    FROM ward w WHERE w.site_id = $1 AND w.id <> $2
    ORDER BY w.name, w.id`,
};

export type Ward = { name: string; hospital: string; policy: WardPolicy; seededAt: EpochMs | null; now: EpochMs };

/** The ward with the settings in force and the database's clock. */
export async function wardOf(pool: Pool, policies: Policies, { siteId, wardId }: WardAccess): Promise<Ward> {
  const { rows } = await pool.query<WardRow>({ ...WARD, values: [siteId, wardId] });
  const row = rows[0];
  // A manager may look at every ward of the hospital: at this one there is nothing to look at.
  if (row === undefined) throw noSuchWard();
  const versions = { settingsVersion: row.settings_version, formularyVersion: row.formulary_version };
  const policy = await policies.of(pool, siteId, wardId, versions);
  return { name: row.name, hospital: row.hospital, policy, seededAt: row.seeded_ms, now: Math.floor(row.now_ms) };
}

/** Who works here and may sign in, by name; wall displays are nobody. */
export async function staffOf(pool: Pool, { siteId, wardId }: WardAccess): Promise<WardView['staff']> {
  type Row = { accountId: string; name: string; role: Role };
  return (await pool.query<Row>({ ...STAFF, values: [siteId, wardId] })).rows;
}

/** The beds in use, in the ward's order, with who lies in them. */
export async function bedsOf(pool: Pool, { siteId, wardId }: WardAccess): Promise<BedsView['beds']> {
  type Row = { bed: string; patientId: string | null };
  return (await pool.query<Row>({ ...BEDS, values: [siteId, wardId] })).rows;
}

/** The hospital's other wards by name, with the beds in which nobody lies; not who lies in the others. */
export async function otherWards(pool: Pool, { siteId, wardId }: WardAccess): Promise<OtherWardsView['wards']> {
  type Row = OtherWardsView['wards'][number];
  return (await pool.query<Row>({ ...OTHERS, values: [siteId, wardId] })).rows;
}

/** Whether a ward of this name stands in the hospital. */
export async function wardExists(pool: Pool, siteId: string, wardId: string): Promise<boolean> {
  const { rowCount } = await pool.query('SELECT FROM ward WHERE site_id = $1 AND id = $2', [siteId, wardId]);
  return rowCount === 1;
}
