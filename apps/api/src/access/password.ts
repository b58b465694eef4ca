import { type Argon2Parameters, argon2, randomBytes, timingSafeEqual } from 'node:crypto';
import { promisify } from 'node:util';
import { ProblemError } from '../problems.ts';
import { boundedQueue } from './queue.ts';

/** OWASP Password Storage Cheat Sheet, argon2id: 19 MiB, 2 passes, 1 lane. */
const MEMORY_KIB = 19_456;
const PASSES = 2;
const LANES = 1;
const HASH_BYTES = 32;
const SALT_BYTES = 16;

// Hashing takes a core and 19 MiB for some 40 ms: a flood of sign-ins must not starve the board.
const enqueue = boundedQueue(2, 64);
const argon2id = promisify((parameters: Argon2Parameters, done: (error: Error | null, hash: Buffer) => void) =>
  argon2('argon2id', parameters, done),
);

const bare = (bytes: Buffer) => bytes.toString('base64').replace(/=+$/, '');

/**
 * Hashes a password with argon2id and a fresh salt.
 * @returns PHC string: `$argon2id$v=19$m=…,t=…,p=…$salt$hash`
 * @throws ProblemError `busy` when too many wait already
 */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  const hash = await digest(password, { salt, memory: MEMORY_KIB, passes: PASSES, lanes: LANES, bytes: HASH_BYTES });
  return `$argon2id$v=19$m=${MEMORY_KIB},t=${PASSES},p=${LANES}$${bare(salt)}$${bare(hash)}`;
}

// The hash of no password at all, so that an unknown name costs the same time as a wrong password.
const NOBODY = `$argon2id$v=19$m=${MEMORY_KIB},t=${PASSES},p=${LANES}$${bare(Buffer.alloc(SALT_BYTES))}$${bare(Buffer.alloc(HASH_BYTES))}`;

/**
 * Whether `password` is the one behind `phc`; `null` (no such account) takes as long and is never right.
 * @throws ProblemError `busy` when too many wait already
 */
export async function isPassword(password: string, phc: string | null): Promise<boolean> {
  const parts = /^\$argon2id\$v=19\$m=(\d+),t=(\d+),p=(\d+)\$([\w+/]+)\$([\w+/]+)$/.exec(phc ?? NOBODY);
  if (!parts) return false;
  const [, memory, passes, lanes, salt, hash] = parts as unknown as [string, string, string, string, string, string];
  const expected = Buffer.from(hash, 'base64');
  const given = await digest(password, {
    salt: Buffer.from(salt, 'base64'),
    memory: Number(memory),
    passes: Number(passes),
    lanes: Number(lanes),
    bytes: expected.length,
  });
  return timingSafeEqual(given, expected) && phc !== null;
}

type Shape = { salt: Buffer; memory: number; passes: number; lanes: number; bytes: number };

async function digest(password: string, { salt, memory, passes, lanes, bytes }: Shape): Promise<Buffer> {
  // one person types "é" as one character, another as two: NFC makes them one password
  const message = password.normalize('NFC');
  const hash = enqueue(() => argon2id({ message, nonce: salt, memory, passes, parallelism: lanes, tagLength: bytes }));
  if (!hash) throw new ProblemError('busy', 'Too many people are signing in at once.', { retryAfterS: 2 });
  return hash;
}
