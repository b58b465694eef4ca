import {
  DEFAULT_SETTINGS,
  isResponseKey,
  NO_SUPPLIES,
  type ResponseTexts,
  type Solution,
  type Supplies,
  type WardPolicy,
  type WardSettings,
} from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';

type Queryable = Pick<Pool | PoolClient, 'query'>;

type PolicyRow = {
  zone: string;
  shiftStarts: string[];
  /** Numbers and the ward's own words, by the name of the setting. */
  settings: Partial<WardSettings> & ResponseTexts;
  formulary: Solution[];
  /** null: nothing was listed yet. */
  supplies: Supplies | null;
};

const READ_POLICY = {
  name: 'record-policy',
  text: `
SELECT ward.zone, ward.shift_starts AS "shiftStarts", settings.settings,
  (SELECT coalesce(json_agg(json_build_object(
      'id', solution.id, 'label', solution.label, 'strength', solution.strength,
      'glucoseGPerL', solution.glucose_g_per_l, 'icodextrinGPerL', solution.icodextrin_g_per_l,
      'buffer', solution.buffer, 'calciumMmolPerL', solution.calcium_mmol_per_l,
      'sodiumMmolPerL', solution.sodium_mmol_per_l, 'bagMl', solution.bag_ml,
      'bagExcessMl', solution.bag_excess_ml, 'chambers', solution.chambers) ORDER BY solution.place, solution.id), '[]')
    FROM solution WHERE solution.site_id = ward.site_id) AS formulary,
  (SELECT json_build_object('products', supplies.products, 'recalls', supplies.recalls)
    FROM supplies WHERE supplies.site_id = ward.site_id AND supplies.version <= $4
    ORDER BY supplies.version DESC LIMIT 1) AS supplies
FROM ward JOIN ward_settings AS settings
  ON settings.site_id = ward.site_id AND settings.ward_id = ward.id AND settings.version = $3
WHERE ward.site_id = $1 AND ward.id = $2`,
};

const numbersOf = (kept: PolicyRow['settings']): Partial<WardSettings> =>
  Object.fromEntries(Object.entries(kept).filter(([key]) => !isResponseKey(key)));

const responsesOf = (kept: PolicyRow['settings']): ResponseTexts =>
  Object.fromEntries(Object.entries(kept).filter(([key]) => isResponseKey(key)));

/** Versions that a policy was made from; both are read with every decision, so a cached policy is never stale. */
export type PolicyVersions = { settingsVersion: number; formularyVersion: number };

/** Ward policies by their versions. A version never changes once it exists, so what was read stays right. */
export type Policies = {
  /** @throws when the ward has no settings of that version. */
  of(db: Queryable, siteId: string, wardId: string, versions: PolicyVersions): Promise<WardPolicy>;
};

export function createPolicies(): Policies {
  const newest = new Map<string, { versions: PolicyVersions; policy: WardPolicy }>();
  return {
    async of(db, siteId, wardId, versions) {
      const key = `${siteId}/${wardId}`;
      const known = newest.get(key);
      if (
        known?.versions.settingsVersion === versions.settingsVersion &&
        known.versions.formularyVersion === versions.formularyVersion
      ) {
        return known.policy;
      }
      const { rows } = await db.query<PolicyRow>({
        ...READ_POLICY,
        values: [siteId, wardId, versions.settingsVersion, versions.formularyVersion],
      });
      const row = rows[0];
      if (row === undefined) {
        throw new Error(`Ward ${key} has no settings of version ${versions.settingsVersion}: open it with openWard().`);
      }
      const policy: WardPolicy = {
        version: versions.settingsVersion,
        zone: row.zone,
        shiftStarts: row.shiftStarts,
        formulary: row.formulary,
        supplies: row.supplies ?? NO_SUPPLIES,
        // A setting that came with a later release has its default until the ward sets it.
        settings: { ...DEFAULT_SETTINGS, ...numbersOf(row.settings) },
        responses: responsesOf(row.settings),
      };
      newest.set(key, { versions, policy });
      return policy;
    },
  };
}
