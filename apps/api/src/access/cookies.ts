import type { CookieSerializeOptions } from '@fastify/cookie';
import { type EpochMs, HOUR_MS } from '@slackwater/domain';
import type { FastifyReply, FastifyRequest } from 'fastify';

type Name = 'session' | 'device';
const NAMES: Record<Name, string> = { session: 'slackwater', device: 'slackwater-device' };

// Browsers take `__Host-` only over https, from this very host and for all of it: no neighbour can plant one.
const nameOf = (https: boolean, name: Name) => (https ? `__Host-${NAMES[name]}` : NAMES[name]);

const optionsFor = (https: boolean): CookieSerializeOptions => ({
  httpOnly: true,
  sameSite: 'strict',
  path: '/',
  secure: https,
});

type Cookies = Readonly<Record<string, string | undefined>>;

export const cookieOf = (cookies: Cookies, https: boolean, name: Name): string | null =>
  cookies[nameOf(https, name)] ?? null;

export const readCookie = ({ cookies }: FastifyRequest, https: boolean, name: Name): string | null =>
  cookieOf(cookies, https, name);

export function setCookie(reply: FastifyReply, https: boolean, name: Name, value: string, expires: Date) {
  reply.setCookie(nameOf(https, name), value, { ...optionsFor(https), expires });
}

/** Browsers keep a cookie for 400 days at most. */
const DEVICE_LASTS_MS = 400 * 24 * HOUR_MS;

/** The browser's own secret, by which the attempts know it again. */
export function setDeviceCookie(reply: FastifyReply, https: boolean, device: string, now: EpochMs) {
  setCookie(reply, https, 'device', device, new Date(now + DEVICE_LASTS_MS));
}

export function clearCookie(reply: FastifyReply, https: boolean, name: Name) {
  reply.clearCookie(nameOf(https, name), optionsFor(https));
}
