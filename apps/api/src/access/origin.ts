import type { FastifyRequest } from 'fastify';
import { ProblemError } from '../problems.ts';

/**
 * Refuses a change that another site's page sends with this person's cookie. Same-site cookies stop most of it; this
 * stops the rest (a neighbouring subdomain is the same site, and not the same origin).
 * A client that is no browser sends neither header, and carries nobody's cookies but its own.
 */
export function refuseForeignOrigin(request: FastifyRequest, https: boolean) {
  const { origin } = request.headers;
  const site = request.headers['sec-fetch-site'];
  const isOwn = origin === undefined || origin === `${https ? 'https' : 'http'}://${request.host}`;
  const isSameOrigin = site === undefined || site === 'same-origin' || site === 'none';
  if (isOwn && isSameOrigin) return;
  throw new ProblemError('foreignOrigin', 'Changes are taken only from pages that this server itself has sent.');
}
