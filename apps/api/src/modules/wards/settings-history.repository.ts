import type { SettingsChange, SettingsHistory } from '@slackwater/contract';
import { DEFAULT_SETTINGS, isResponseKey, type ResponseTexts, type WardSettings } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { WardAccess } from '../../access/ward-access.ts';
import { epochMs } from '../../record/instants.ts';

type Kept = Partial<WardSettings> & ResponseTexts;
type Row = { version: number; at: number; by: string | null; settings: Kept; before: Kept };

/** A version beside the one before it. $1 site, $2 ward, $3 below which version; null: from the newest, $4 how many */
const VERSIONS = {
  name: 'settings-versions',
  text: `
    SELECT s.version, ${epochMs('s.from_at')} AS at, a.name AS by, s.settings, b.settings AS before
    FROM ward_settings s
    JOIN ward_settings b ON b.site_id = s.site_id AND b.ward_id = s.ward_id AND b.version = s.version - 1
    LEFT JOIN entry e ON e.site_id = s.site_id AND e.id = s.entry_id
    LEFT JOIN account a ON a.site_id = e.site_id AND a.id = e.author_id
    WHERE s.site_id = $1 AND s.ward_id = $2 AND ($3::integer IS NULL OR s.version < $3)
    ORDER BY s.version DESC LIMIT $4`,
};

/** The versions of a ward's settings after the first, newest first, with who made them and what they changed. */
export async function versionsBefore(
  pool: Pool,
  { siteId, wardId }: WardAccess,
  below: number | null,
  limit: number,
): Promise<SettingsHistory['versions']> {
  const { rows } = await pool.query<Row>({ ...VERSIONS, values: [siteId, wardId, below, limit] });
  return rows.map(({ version, at, by, settings, before }) => ({
    version,
    at,
    by,
    changes: changesOf(before, settings),
  }));
}

/** A setting that a release added after a version was kept stood at its default then. */
function changesOf(before: Kept, after: Kept): SettingsChange[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])] as (keyof Kept)[];
  return keys
    .map((key) => ({ key, from: valueIn(before, key), to: valueIn(after, key) }))
    .filter(({ from, to }) => from !== to);
}

const valueIn = (kept: Kept, key: keyof Kept): number | string | null =>
  kept[key] ?? (isResponseKey(key) ? null : (DEFAULT_SETTINGS[key as keyof WardSettings] ?? null));
