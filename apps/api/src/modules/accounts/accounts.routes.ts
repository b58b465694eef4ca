import { account, accountChange, newAccount, uuid } from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import type { Router } from '../router.ts';
import { allAccounts } from './accounts.repository.ts';
import { alterAccount, makeAccount } from './accounts.usecases.ts';

/** Accounts of the hospital: for its managers. */
export function accountRoutes(app: Router, parts: Parts) {
  const { access, prisma } = parts;

  app.get(
    '/api/accounts',
    {
      schema: {
        summary: 'All accounts',
        tags: ['accounts'],
        response: { 200: z.strictObject({ accounts: z.array(account) }) },
      },
    },
    async (request) => {
      const by = signedInBy(request);
      const accounts = await allAccounts(prisma, access.openSite(by, 'manageAccounts'));
      await access.audit.noteRead(by.sessionId, {
        action: 'readAccounts',
        accountId: by.accountId,
        address: request.ip,
      });
      return { accounts };
    },
  );

  app.post(
    '/api/accounts',
    { schema: { summary: 'Make an account', tags: ['accounts'], body: newAccount, response: { 201: account } } },
    async (request, reply) => {
      const site = access.openSite(signedInBy(request), 'manageAccounts');
      return reply.code(201).send(await makeAccount(parts, site, request.body, request.ip));
    },
  );

  app.patch(
    '/api/accounts/:id',
    {
      schema: {
        summary: 'Change an account',
        tags: ['accounts'],
        params: z.strictObject({ id: uuid }),
        body: accountChange,
        response: { 200: account },
      },
    },
    async (request) => {
      const site = access.openSite(signedInBy(request), 'manageAccounts');
      return alterAccount(parts, site, request.params.id, request.body, request.ip);
    },
  );
}
