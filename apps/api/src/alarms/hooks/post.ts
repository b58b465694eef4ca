import { lookup as dnsLookup } from 'node:dns';
import { request as httpRequest, type IncomingMessage } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { type BlockList, isIP, type LookupFunction } from 'node:net';
import type { EpochMs } from '@slackwater/domain';
import { mayBeReached } from './addresses.ts';
import type { Hook } from './hook.ts';
import { signed } from './message.ts';

const ANSWER_WITHIN_MS = 10_000;
/** What a receiver may say before nobody listens any more. */
const MOST_ANSWER_BYTES = 64 * 1024;

export type Post = {
  hook: Hook;
  /** The same at every try. */
  id: string;
  /** Of this try. */
  at: EpochMs;
  body: string;
  inside: BlockList;
  stopped: AbortSignal;
};

/**
 * Sends one message, once: no redirect is followed, no connection is kept, and what is connected to is the address that
 * was checked, not what the name says a moment later.
 * @returns null when it was taken (2xx), else why not, in words that may be shown
 */
export async function post({ hook, id, at, body, inside, stopped }: Post): Promise<string | null> {
  const url = new URL(hook.url);
  const host = url.hostname.replace(/^\[|\]$/g, '');
  if (isIP(host) !== 0 && !mayBeReached(host, inside)) return notAllowed(host, host);
  const tooLate = AbortSignal.timeout(ANSWER_WITHIN_MS);
  try {
    const status = await statusOf(url, {
      body,
      headers: signed(hook, id, at, body),
      lookup: checkedLookup(inside),
      signal: AbortSignal.any([tooLate, stopped]),
    });
    if (status >= 200 && status < 300) return null;
    return status >= 300 && status < 400 ? `answered ${status}; redirects are not followed` : `answered ${status}`;
  } catch (error) {
    if (stopped.aborted) return 'the server was stopped meanwhile';
    if (tooLate.aborted) return `no answer within ${ANSWER_WITHIN_MS / 1000} s`;
    return wordsOf(error as NodeJS.ErrnoException);
  }
}

class NotAllowed extends Error {}

const notAllowed = (host: string, address: string): string =>
  `${host} is at ${address}, which is no public address and is not among SLACKWATER_HOOKS_INSIDE`;

const wordsOf = (error: NodeJS.ErrnoException): string =>
  error instanceof NotAllowed ? error.message : `could not be reached (${error.code ?? error.name})`;

/** Resolves a name once; one forbidden address among its answers forbids it. Only what was checked is connected to. */
const checkedLookup =
  (inside: BlockList): LookupFunction =>
  (hostname, options, callback) => {
    dnsLookup(hostname, { ...options, all: true }, (error, addresses) => {
      if (error) return callback(error, '', 0);
      const forbidden = addresses.find(({ address }) => !mayBeReached(address, inside));
      if (forbidden) return callback(new NotAllowed(notAllowed(hostname, forbidden.address)), '', 0);
      const [first] = addresses;
      if (first === undefined) return callback(new Error(`${hostname} has no address`), '', 0);
      return options.all ? callback(null, addresses) : callback(null, first.address, first.family);
    });
  };

type Sending = { body: string; headers: Record<string, string>; lookup: LookupFunction; signal: AbortSignal };

function statusOf(url: URL, { body, headers, lookup, signal }: Sending): Promise<number> {
  const send = url.protocol === 'https:' ? httpsRequest : httpRequest;
  const about = {
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(body)),
    'user-agent': 'slackwater',
    ...headers,
  };
  return new Promise((resolve, reject) => {
    const sending = send(url, { method: 'POST', headers: about, lookup, signal, agent: false }, (answer) => {
      resolve(answer.statusCode ?? 0);
      listenBriefly(answer);
    });
    sending.on('error', reject);
    sending.end(body);
  });
}

/** What it says beside its status is not read, and a long story is not heard out. */
function listenBriefly(answer: IncomingMessage): void {
  let bytes = 0;
  answer.on('error', () => undefined);
  answer.on('data', (chunk: Buffer) => {
    bytes += chunk.length;
    if (bytes > MOST_ANSWER_BYTES) answer.destroy();
  });
}
