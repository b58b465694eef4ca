import type { MadeWallDisplay, NewWallDisplay, OpenWallDisplay } from '@slackwater/contract';
import { MINUTE_MS } from '@slackwater/domain';
import pg from 'pg';
import type { From } from '../../access/attempts.ts';
import { hashPassword } from '../../access/password.ts';
import type { SignedIn } from '../../access/sessions.ts';
import { newToken } from '../../access/tokens.ts';
import type { WardAccess } from '../../access/ward-access.ts';
import type { Parts } from '../parts.ts';
import { hashWallCode, newWallCode } from './wall-code.ts';
import { cannotBeRenewed, codeUsed, idTaken, noSuchDisplay } from './wall-displays.errors.ts';
import { addDisplay, disableDisplay, giveNewCode, redeemCode } from './wall-displays.repository.ts';

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
 * Gives a display 90 days more: a new code, for the same display. What it shows goes on until the code is used; so nobody
 * gets the days who does not stand at the device, and a session that somebody copied ends with the old one.
 * @throws ProblemError `notFound`
 */
export async function renewDisplay(
  { access, pool }: Parts,
  ward: WardAccess,
  id: string,
  address: string,
): Promise<MadeWallDisplay> {
  const code = newWallCode();
  const codeEndsAt = await giveNewCode(pool, ward, { id, codeHash: hashWallCode(code), codeLastsMs: CODE_LASTS_MS });
  if (codeEndsAt === null) throw cannotBeRenewed();
  await note('renewedWall', { access }, ward, address, id);
  return { id, code, codeEndsAt };
}

/** Under which all guesses at codes are counted: no sign-in has capital letters. */
const GUESSES = 'CODE of a wall display';

/**
 * Lets the device in that knows a display's code; wherever the display was open before, it ends. Guesses are counted for
 * each source as at sign-in. Whoever is signed in is a source of their own: nobody who guesses from the same address can
 * keep them waiting.
 * @returns the session's token and the browser's own, both for cookies
 * @throws ProblemError `codeUsed`, `tooManyAttempts`
 */
export async function openDisplay(
  { access, pool }: Parts,
  { code }: OpenWallDisplay,
  by: SignedIn | null,
  from: From & { userAgent: string | null },
): Promise<{ token: string; device: string }> {
  const { address } = from;
  const source = by === null ? from : { address: `account ${by.accountId}`, device: null };
  const accountId = await access.attempts.guess(
    { what: 'wallCode', login: GUESSES, from: source },
    () => redeemCode(pool, access.siteId, hashWallCode(code)),
    (id) => id !== null,
  );
  if (accountId === null) {
    await access.audit.note({ action: 'openWallFailed', accountId: by?.accountId ?? null, address });
    throw codeUsed();
  }
  const device = from.device ?? newToken();
  await access.attempts.succeeded(GUESSES, { address: source.address, device });
  await access.sessions.end(accountId, null);
  const token = await access.sessions.start({ id: accountId, wallOnly: true }, from);
  await access.audit.note({ action: 'openedWall', accountId, address });
  return { token, device };
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
  action: 'madeWall' | 'renewedWall' | 'revokedWall',
  { access }: Pick<Parts, 'access'>,
  { by, wardId }: WardAccess,
  address: string,
  display: string,
) => access.audit.note({ action, accountId: by.accountId, address, wardId, detail: { display } });
