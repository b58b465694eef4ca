import type { EntryKind, Permission, Role } from '@slackwater/domain';
import { may, mayWrite } from '@slackwater/domain';
import { noSuchWard, ProblemError } from '../problems.ts';
import type { SignedIn } from './sessions.ts';

const MINTED = Symbol('minted by access/');

/**
 * The right to touch one ward, which every repository asks for. Its constructor wants a key that never leaves this
 * file: nothing else can make one, so no query can run before somebody was asked.
 */
class WardAccess {
  readonly siteId: string;
  readonly wardId: string;
  readonly by: SignedIn;
  readonly #roles: readonly Role[];

  constructor(key: typeof MINTED, siteId: string, wardId: string, by: SignedIn, roles: readonly Role[]) {
    if (key !== MINTED) throw new Error('WardAccess is made by openWard alone');
    this.siteId = siteId;
    this.wardId = wardId;
    this.by = by;
    this.#roles = roles;
  }

  may(permission: Permission): boolean {
    return this.#roles.some((role) => may(role, permission));
  }

  /**
   * The role in which this person does what needs `permission`.
   * @throws ProblemError `notAllowed`
   */
  roleFor(permission: Permission): Role {
    const role = this.#roles.find((one) => may(one, permission));
    if (role) return role;
    throw this.#notAllowed();
  }

  /**
   * The role in which this person writes an entry.
   * @throws ProblemError `notAllowed`
   */
  roleToWrite(kind: EntryKind, payload: Readonly<Record<string, unknown>>): Role {
    const role = this.#roles.find((one) => mayWrite(one, kind, payload));
    if (role) return role;
    throw this.#notAllowed();
  }

  #notAllowed() {
    return new ProblemError('notAllowed', `Your role on this ward (${this.#roles.join(', ')}) does not allow this.`);
  }
}

export type { WardAccess };

/** What a person is on a ward; a manager of the hospital is one on each of its wards. */
export const rolesOn = (by: SignedIn, wardId: string): readonly Role[] => [
  ...by.roles.filter((one) => one.wardId === wardId).map((one) => one.role),
  ...(by.manager ? (['manager'] as const) : []),
];

/**
 * Opens a ward for somebody who may do `permission` there.
 * @throws ProblemError `notFound` to whom has no role there (whether it exists is not told), `notAllowed` to whom
 *   has one that does not reach
 */
export function openWard(siteId: string, by: SignedIn, wardId: string, permission: Permission): WardAccess {
  const roles = rolesOn(by, wardId);
  if (roles.length === 0) throw noSuchWard();
  const access = new WardAccess(MINTED, siteId, wardId, by, roles);
  access.roleFor(permission);
  return access;
}
