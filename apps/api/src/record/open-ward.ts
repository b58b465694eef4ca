import { randomUUID } from 'node:crypto';
import { DEFAULT_SETTINGS, type Solution, type WardSettings } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { CHAIN_START } from './chain.ts';

type Queryable = Pick<Pool | PoolClient, 'query'>;

/** Opens a hospital with its formulary and its first epoch. Does nothing where it stands already. */
export async function openSite(
  db: Queryable,
  site: { id: string; name: string },
  formulary: readonly Solution[],
): Promise<void> {
  await db.query('INSERT INTO site (id, name) VALUES ($1, $2) ON CONFLICT DO NOTHING', [site.id, site.name]);
  await db.query(
    'INSERT INTO epoch (site_id, epoch, started_at) VALUES ($1, $2, clock_timestamp()) ON CONFLICT DO NOTHING',
    [site.id, randomUUID()],
  );
  for (const [index, solution] of formulary.entries()) {
    await db.query(
      `INSERT INTO solution (site_id, id, label, strength, glucose_g_per_l, icodextrin_g_per_l, buffer,
        calcium_mmol_per_l, sodium_mmol_per_l, bag_ml, bag_excess_ml, chambers, place)
      VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) ON CONFLICT DO NOTHING`,
      [
        site.id,
        solution.id,
        solution.label,
        solution.strength,
        solution.glucoseGPerL,
        solution.icodextrinGPerL,
        solution.buffer,
        solution.calciumMmolPerL,
        solution.sodiumMmolPerL,
        solution.bagMl,
        solution.bagExcessMl,
        solution.chambers,
        index + 1,
      ],
    );
  }
}

export type NewWard = {
  siteId: string;
  id: string;
  name: string;
  /** IANA name of the zone. */
  zone: string;
  /** `HH:MM`; the first is also the start of the ward day. */
  shiftStarts: readonly string[];
  beds: readonly string[];
  settings?: WardSettings;
};

/** Opens a ward: its beds, its first settings, its counter at 0. Does nothing where it stands already. */
export async function openWard(db: Queryable, ward: NewWard): Promise<void> {
  const key = [ward.siteId, ward.id];
  await db.query(
    'INSERT INTO ward (site_id, id, name, zone, shift_starts) VALUES ($1, $2, $3, $4, $5) ON CONFLICT DO NOTHING',
    [...key, ward.name, ward.zone, ward.shiftStarts],
  );
  await db.query('INSERT INTO ward_counter (site_id, ward_id, digest) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING', [
    ...key,
    CHAIN_START,
  ]);
  await db.query(
    `INSERT INTO ward_settings (site_id, ward_id, version, settings, from_at)
    VALUES ($1, $2, 1, $3, clock_timestamp()) ON CONFLICT DO NOTHING`,
    [...key, JSON.stringify(ward.settings ?? DEFAULT_SETTINGS)],
  );
  await db.query(
    `INSERT INTO bed (site_id, ward_id, id, place)
    SELECT $1, $2, bed.id, bed.place FROM unnest($3::text[]) WITH ORDINALITY AS bed(id, place) ON CONFLICT DO NOTHING`,
    [...key, ward.beds],
  );
}
