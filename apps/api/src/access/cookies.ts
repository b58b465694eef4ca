import type { CookieSerializeOptions } from '@fastify/cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';

type Name = 'session' | 'device';
const NAMES: Record<Name, string> = { session: 'slackwater', device: 'slackwater-device' };

// Browsers take `__Host-` only over https, from this very host and for all of it: no neighbour can plant one.
const nameOf = (request: FastifyRequest, name: Name) =>
  request.protocol === 'https' ? `__Host-${NAMES[name]}` : NAMES[name];

const optionsFor = (request: FastifyRequest): CookieSerializeOptions => ({
  httpOnly: true,
  sameSite: 'strict',
  path: '/',
  secure: request.protocol === 'https',
});

export const readCookie = (request: FastifyRequest, name: Name): string | null =>
  request.cookies[nameOf(request, name)] ?? null;

export function setCookie(request: FastifyRequest, reply: FastifyReply, name: Name, value: string, expires: Date) {
  reply.setCookie(nameOf(request, name), value, { ...optionsFor(request), expires });
}

export function clearCookie(request: FastifyRequest, reply: FastifyReply, name: Name) {
  reply.clearCookie(nameOf(request, name), optionsFor(request));
}
