import { healthAnswer, type Live, type Ready } from '@slackwater/contract';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { health } from './health.usecases.ts';

export function healthRoutes(app: Router, parts: Parts) {
  app.get(
    '/api/health',
    {
      config: { access: 'public' },
      schema: {
        summary: 'Live for everybody; what stands behind it for the signed in',
        tags: ['health'],
        response: { 200: healthAnswer },
      },
    },
    async (request): Promise<Live | Ready> =>
      request.signedIn ? health(parts.pool, parts.access.siteId, parts.live.status()) : { status: 'live' },
  );
}
