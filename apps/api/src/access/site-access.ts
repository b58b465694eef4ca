import type { Permission } from '@slackwater/domain';
import { may } from '@slackwater/domain';
import { ProblemError } from '../problems.ts';
import type { SignedIn } from './sessions.ts';

const MINTED = Symbol('minted by access/');

/** The right to manage the hospital's accounts or to read its audit; made by `openSite` alone. */
class SiteAccess {
  readonly siteId: string;
  readonly by: SignedIn;

  constructor(key: typeof MINTED, siteId: string, by: SignedIn) {
    if (key !== MINTED) throw new Error('SiteAccess is made by openSite alone');
    this.siteId = siteId;
    this.by = by;
  }
}

export type { SiteAccess };

/** @throws ProblemError `notAllowed` to everybody but a manager of the hospital */
export function openSite(siteId: string, by: SignedIn, permission: Permission): SiteAccess {
  if (by.manager && may('manager', permission)) return new SiteAccess(MINTED, siteId, by);
  throw new ProblemError('notAllowed', 'Only a manager of the hospital may do this.');
}
