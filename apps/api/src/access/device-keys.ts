import { randomBytes } from 'node:crypto';
import type { Pool } from 'pg';
import { hashToken } from './tokens.ts';

const KEY_BYTES = 32;

/** $1 site, $2 account, $3 hash of the device's cookie, $4 the key if there is none yet */
const MAKE_KEY = {
  name: 'device-key-make',
  text: `
    INSERT INTO device_key (site_id, account_id, device_hash, key, made_at) VALUES ($1, $2, $3, $4, now())
    ON CONFLICT DO NOTHING`,
};

/** $1 site, $2 account, $3 hash of the device's cookie */
const READ_KEY = {
  name: 'device-key-read',
  text: 'SELECT key FROM device_key WHERE site_id = $1 AND account_id = $2 AND device_hash = $3',
};

/**
 * The keys under which devices keep what they cannot send. One for each account on each device, random and stored: it
 * depends on no other secret, so none has to be guarded, changed or carried to another machine, and what a lost tablet
 * holds opens for nobody who cannot sign in. It never changes, or what waits on the device could not be read again.
 */
export function openDeviceKeys(pool: Pool, siteId: string) {
  return {
    /** @param device the value of the device's cookie @returns the key in base64 */
    async of(accountId: string, device: string): Promise<string> {
      const about = [siteId, accountId, hashToken(device)];
      await pool.query({ ...MAKE_KEY, values: [...about, randomBytes(KEY_BYTES)] });
      const { rows } = await pool.query<{ key: Buffer }>({ ...READ_KEY, values: about });
      return rows[0]!.key.toString('base64');
    },
  };
}
