import type { FastifyRequest } from 'fastify';
import { addressGroup } from '../../access/address.ts';
import { readCookie } from '../../access/cookies.ts';

/** From where a password comes, as the attempts count it. */
export const browserOf = (request: FastifyRequest, https: boolean) => ({
  address: addressGroup(request.ip),
  device: readCookie(request, https, 'device'),
  userAgent: request.headers['user-agent']?.slice(0, 300) ?? null,
});
