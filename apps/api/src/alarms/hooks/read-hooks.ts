import { isIP } from 'node:net';
import { ALERT_RANKS, type AlertRank } from '@slackwater/domain';
import { listOf, mayBeReached } from './addresses.ts';
import type { Hook } from './hook.ts';

/** What is wrong with an entry, without saying its secret. */
class HookFault extends Error {}

/** Standard Webhooks asks for 24 to 64 bytes. */
const KEY_BYTES = { least: 24, most: 64 };

/**
 * Reads the list of hooks: entries apart by `;`, each an address, its secret and the ranks it is told of.
 * @param text as `https://pager.example/alerts whsec_… high,medium`; no ranks: high alone
 * @param inside addresses of the hospital's own network that may be reached
 * @returns the hooks, or one sentence about the first entry that cannot be
 */
export function readHooks(text: string, inside: readonly string[]): { hooks: readonly Hook[] } | { fault: string } {
  const entries = text
    .split(';')
    .map((entry) => entry.trim())
    .filter((entry) => entry !== '');
  try {
    const hooks = entries.map((entry, index) => hookOf(entry, index + 1, inside));
    const twice = hooks.find(({ url }, index) => hooks.findIndex((other) => other.url === url) !== index);
    if (twice) throw new HookFault(`${twice.url} stands there twice`);
    return { hooks };
  } catch (error) {
    if (error instanceof HookFault) return { fault: error.message };
    throw error;
  }
}

function hookOf(entry: string, number: number, inside: readonly string[]): Hook {
  const refuse = (what: string): never => {
    throw new HookFault(`entry ${number}: ${what}`);
  };
  const [address = '', secret = '', ranks = 'high', ...more] = entry.split(/\s+/);
  if (more.length > 0) refuse('an address, a secret and ranks as high,medium, apart by blanks');
  const url = URL.canParse(address) ? new URL(address) : refuse('its address is none');
  if (url.username || url.password || url.search || url.hash)
    refuse('its address is scheme, host, port and path, and no more');
  const host = url.hostname.replace(/^\[|\]$/g, '');
  const reachable = listOf(inside);
  if (isIP(host) !== 0 && !mayBeReached(host, reachable))
    refuse(`${host} is no public address: name it in SLACKWATER_HOOKS_INSIDE if it is the hospital's own`);
  if (url.protocol !== 'https:' && !(url.protocol === 'http:' && isOnThisMachine(address)))
    refuse('its address begins with https:// (http:// only on this machine)');
  return { url: url.href, key: keyOf(secret) ?? refuse(KEY_WORDS), ranks: ranksOf(ranks) ?? refuse(RANK_WORDS) };
}

/** Whether an address, as `readHooks` takes it, leads to this machine. */
export function isOnThisMachine(address: string): boolean {
  const { hostname } = new URL(address);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}

const KEY_WORDS = `its secret is whsec_ and ${KEY_BYTES.least} to ${KEY_BYTES.most} bytes in base64`;

function keyOf(secret: string): Buffer | null {
  const [, base64 = ''] = /^whsec_([A-Za-z0-9+/]+={0,2})$/.exec(secret) ?? [];
  const key = Buffer.from(base64, 'base64');
  return key.length >= KEY_BYTES.least && key.length <= KEY_BYTES.most ? key : null;
}

const RANK_WORDS = `its ranks are some of ${ALERT_RANKS.join(', ')}`;

function ranksOf(text: string): readonly AlertRank[] | null {
  const named = text.split(',');
  const isKnown = named.every((name) => (ALERT_RANKS as readonly string[]).includes(name));
  return isKnown ? ALERT_RANKS.filter((rank) => named.includes(rank)) : null;
}
