import { type HooksView, hooksView } from '@slackwater/contract';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { standingOf } from './hooks.repository.ts';

/** The paging systems that are told of alerts; which they are is the configuration's alone. */
export function hookRoutes(app: Router, { access, pool, hooks }: Parts) {
  app.get(
    '/api/hooks',
    {
      schema: {
        summary: 'Paging systems that are told of alerts, and what they took',
        tags: ['alerts'],
        response: { 200: hooksView },
      },
    },
    async (request): Promise<HooksView> => {
      const site = access.openSite(signedInBy(request), 'changeSettings');
      return { hooks: await standingOf(pool, site, hooks.hooks) };
    },
  );
}
