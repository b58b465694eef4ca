import { hash, randomBytes } from 'node:crypto';

/** A secret of 256 bits, as text that a cookie or an address may hold. */
export const newToken = (): string => randomBytes(32).toString('base64url');

/** What is kept of a token: who reads the database cannot sign in with it. */
export const hashToken = (token: string): Buffer => hash('sha256', token, 'buffer');
