import type { FastifyRequest } from 'fastify';

/**
 * Whether the API answers a request. The route that takes it decides, not the address as it was written: `/%61pi/…` and
 * `http://host/api/…` reach the same routes.
 */
export const isApi = ({ routeOptions, url }: FastifyRequest): boolean => (routeOptions.url ?? url).startsWith('/api/');
