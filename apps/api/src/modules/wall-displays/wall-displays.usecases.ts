import type { MadeWallDisplay, NewWallDisplay, OpenWallDisplay } from '@slackwater/contract';
import { MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import { hashPassword } from '../../access/password.ts';
import { newToken } from '../../access/tokens.ts';
import type { WardAccess } from '../../access/ward-access.ts';
import type { Parts } from '../parts.ts';
import { hashWallCode, newWallCode } from './wall-code.ts';
import { codeUsed, idTaken, noSuchDisplay } from './wall-displays.errors.ts';
import { addDisplay, disableDisplay, redeemCode } from './wall-displays.repository.ts';

/** Long enough to walk to the device and type. */
const CODE_LASTS_MS = 15 * MINUTE_MS;

/**
 * Makes a display with an account that no password opens.
 * @throws ProblemError `idTaken`, `busy`
 */
export async function makeDisplay(
  { access, pool }: Parts,
  ward: WardAccess,
  { id, name }: NewWallDisplay,
  address: string,
): Promise<MadeWallDisplay> {
  const code = newWallCode();
  const codeEndsAt = await addDisplay(pool, ward, {
    id,
    login: `wall-${id}`,
    name,
    // of a secret that is forgotten here
    passwordHash: await hashPassword(newToken()),
    codeHash: hashWallCode(code),
    codeLastsMs: CODE_LASTS_MS,
  }).catch((error) => {
    throw error instanceof pg.DatabaseError && error.constraint === 'account_pkey' ? idTaken() : error;
  });
  await note('madeWall', { access }, ward, address, id);
  return { id, code, codeEndsAt };
}

/**
 * Lets the device in that knows a display's code.
 * @returns the session's token, for a cookie
 * @throws ProblemError `codeUsed`
 */
export async function openDisplay(
  { access, pool }: Parts,
  { code }: OpenWallDisplay,
  from: { address: string; userAgent: string | null },
): Promise<string> {
  const accountId = await redeemCode(pool, access.siteId, hashWallCode(code));
  if (accountId === null) throw codeUsed();
  const token = await access.sessions.start({ id: accountId, wallOnly: true }, from);
  await access.audit.note({ action: 'openedWall', accountId, address: from.address });
  return token;
}

/**
 * Ends a display at once, in every process, and for good.
 * @throws ProblemError `notFound`
 */
export async function revokeDisplay({ access, pool }: Parts, ward: WardAccess, id: string, address: string) {
  if (!(await disableDisplay(pool, ward, id))) throw noSuchDisplay();
  await access.sessions.end(id, null);
  await note('revokedWall', { access }, ward, address, id);
}

const note = (
  action: 'madeWall' | 'revokedWall',
  { access }: Pick<Parts, 'access'>,
  { by, wardId }: WardAccess,
  address: string,
  display: string,
) => access.audit.note({ action, accountId: by.accountId, address, wardId, detail: { display } });
