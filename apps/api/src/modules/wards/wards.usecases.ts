import type { NewWard } from '@slackwater/contract';
import type { SiteAccess } from '../../access/site-access.ts';
import { openWard } from '../../record/open-ward.ts';
import type { Parts } from '../parts.ts';
import { noSuchZone, wardTaken } from './wards.errors.ts';
import { wardExists } from './wards.repository.ts';

/** @throws ProblemError `taken` where the ward stands already, `invalid` for a zone that is not known */
export async function makeWard({ access, pool }: Parts, { siteId, by }: SiteAccess, ward: NewWard, address: string) {
  if (!isZone(ward.zone)) throw noSuchZone(ward.zone);
  if (await wardExists(pool, siteId, ward.id)) throw wardTaken(ward.id);
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    await openWard(client, { ...ward, siteId });
    await client.query('COMMIT');
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  } finally {
    client.release();
  }
  await access.audit.note({ action: 'openedWard', accountId: by.accountId, address, wardId: ward.id });
}

/** An offset would do for Temporal, and knows no summer time. */
function isZone(zone: string): boolean {
  if (!/^[A-Za-z]/.test(zone)) return false;
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
    return true;
  } catch {
    return false;
  }
}
