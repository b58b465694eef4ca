import type { LotUse } from '@slackwater/contract';
import { type EpochMs, lotKey, may } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { WardAccess } from '../../access/ward-access.ts';
import { epochMs } from '../../record/instants.ts';
import { IDENTITY_COLUMNS, type IdentityRow, identityOf } from '../patients/patients.repository.ts';

type UseRow = IdentityRow & {
  wardId: string;
  nowWardId: string | null;
  nowBed: string | null;
  at: EpochMs;
  filled: boolean;
  solutionId: string;
  labelledMl: number;
  expiresOn: string | null;
  lot: string;
};

/**
 * One row a visit: the fill from the bag, else that it was checked. $1 site, $2 the lot's key, $3 wards that may be read;
 * null: all, $4 how many. A patient who came from another ward brings what was used there.
 */
const USES = {
  name: 'lot-uses',
  text: `
    WITH uses AS (
      SELECT DISTINCT ON (u.visit_id, u.solution_id) u.*
      FROM bag_use u
      WHERE u.site_id = $1 AND u.lot_key = $2
      ORDER BY u.visit_id, u.solution_id, u.filled DESC, u.at
    )
    SELECT ${IDENTITY_COLUMNS}, uses.ward_id AS "wardId", b.ward_id AS "nowWardId", b.bed AS "nowBed",
      ${epochMs('uses.at')} AS at, uses.filled, uses.solution_id AS "solutionId", uses.labelled_ml AS "labelledMl",
      uses.expires_on::text AS "expiresOn", uses.lot
    FROM uses
    JOIN patient p ON p.site_id = uses.site_id AND p.id = uses.patient_id
    LEFT JOIN bedside b ON b.site_id = p.site_id AND b.patient_id = p.id
    WHERE p.erased_at IS NULL AND ($3::text[] IS NULL OR uses.ward_id = ANY($3) OR b.ward_id = ANY($3))
    ORDER BY uses.at DESC, uses.id LIMIT $4`,
};

/** $1 site, $2 wards, null: all, $3 days */
const UNREAD = {
  name: 'lot-unread',
  text: `
    SELECT count(*)::integer AS count FROM bag_use
    WHERE site_id = $1 AND filled AND lot_key IS NULL AND at > now() - make_interval(days => $3)
      AND ward_id IN (SELECT id FROM ward WHERE site_id = $1 AND ($2::text[] IS NULL OR id = ANY($2)))`,
};

/** The wards whose patients this person may read; null: all of the hospital. */
const readableWards = ({ by }: WardAccess): readonly string[] | null =>
  by.manager ? null : by.roles.filter(({ role }) => may(role, 'readPatient')).map(({ wardId }) => wardId);

/** Who had a bag of the lot, newest first, on all wards that this person may read. */
export async function usesOfLot(pool: Pool, ward: WardAccess, lot: string, most: number): Promise<LotUse[]> {
  const values = [ward.siteId, lotKey(lot), readableWards(ward), most];
  const { rows } = await pool.query<UseRow>({ ...USES, values });
  return rows.map((row) => ({
    patient: identityOf(row),
    wardId: row.wardId,
    nowWardId: row.nowWardId,
    nowBed: row.nowBed,
    at: row.at,
    filled: row.filled,
    solutionId: row.solutionId,
    labelledMl: row.labelledMl,
    expiresOn: row.expiresOn,
    lot: row.lot,
  }));
}

/** How many fills of the last days have no lot: a search by lot cannot find them. */
export async function fillsWithoutLot(pool: Pool, ward: WardAccess, days: number): Promise<number> {
  const { rows } = await pool.query<{ count: number }>({ ...UNREAD, values: [ward.siteId, readableWards(ward), days] });
  return rows[0]!.count;
}
