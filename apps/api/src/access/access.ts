import type { Permission } from '@slackwater/domain';
import type { Client, Pool } from 'pg';
import { openAttempts } from './attempts.ts';
import { openAudit } from './audit.ts';
import { openDeviceKeys } from './device-keys.ts';
import { openFirstAdministrator } from './first-administrator.ts';
import { hearEnded } from './hear-ended.ts';
import { openPatient } from './patient-access.ts';
import { openSessions, type SignedIn } from './sessions.ts';
import { openSite } from './site-access.ts';
import { openWard } from './ward-access.ts';

export type Access = ReturnType<typeof openAccess>;

/**
 * Everything about who may do what in one hospital.
 * @param now a clock that only runs forward, ms; it ages what is remembered and is never the ward's clock
 */
export function openAccess(pool: Pool, siteId: string, now: () => number = () => performance.now()) {
  const sessions = openSessions(pool, siteId, now);
  return {
    siteId,
    sessions,
    attempts: openAttempts(pool, siteId),
    audit: openAudit(pool, siteId, now),
    deviceKeys: openDeviceKeys(pool, siteId),
    firstAdministrator: openFirstAdministrator(pool, siteId),
    hearEnded: (client: Client, onEnded: (accountId: string) => void) => hearEnded(client, sessions, onEnded),
    openWard: (by: SignedIn, wardId: string, permission: Permission) => openWard(siteId, by, wardId, permission),
    openPatient: (by: SignedIn, patientId: string, permission: Permission) =>
      openPatient(pool, siteId, by, patientId, permission),
    openSite: (by: SignedIn, permission: Permission) => openSite(siteId, by, permission),
  };
}
