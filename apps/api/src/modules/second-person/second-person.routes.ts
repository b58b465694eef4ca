import { type EntriesAnswer, entriesAnswer, secondPerson } from '@slackwater/contract';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { browserOf } from '../session/browser-of.ts';
import { checkAsSecondPerson } from './second-person.usecases.ts';

/** The second person at the same device. From their own session the check is an ordinary entry. */
export function secondPersonRoutes(app: Router, parts: Parts) {
  app.post(
    '/api/second-person',
    {
      schema: {
        summary: "Sign a check of what is added to a bag as its second person, within somebody else's session",
        tags: ['record'],
        body: secondPerson,
        response: { 200: entriesAnswer },
      },
    },
    (request): Promise<EntriesAnswer> =>
      checkAsSecondPerson(parts, signedInBy(request), request.body, browserOf(request, parts.https)),
  );
}
