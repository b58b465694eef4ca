import cookie from '@fastify/cookie';
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { guardRequests } from '../access/access.plugin.ts';
import { ruleBrowsers } from '../access/browser-rules.ts';
import { isApi } from '../api-route.ts';
import { answerProblems } from '../problems.handler.ts';
import { accountRoutes } from './accounts/accounts.routes.ts';
import { alertRoutes } from './alerts/alerts.routes.ts';
import { auditRoutes } from './audit/audit.routes.ts';
import { bedsideRoutes } from './bedside/bedside.routes.ts';
import { boardRoutes } from './board/board.routes.ts';
import { answerKnownBoards } from './board/known-boards.ts';
import { entryRoutes } from './entries/entries.routes.ts';
import { expectedDrainRoutes } from './expected-drain/expected-drain.routes.ts';
import { healthRoutes } from './health/health.routes.ts';
import { hookRoutes } from './hooks/hooks.routes.ts';
import { importRoutes } from './import/import.routes.ts';
import { lotRoutes } from './lots/lots.routes.ts';
import { describeRoutes } from './openapi.ts';
import { outboxRoutes } from './outbox/outbox.routes.ts';
import type { Parts } from './parts.ts';
import { patientRoutes } from './patients/patients.routes.ts';
import { prescriptionRoutes } from './prescriptions/prescriptions.routes.ts';
import { roundsRoutes } from './rounds/rounds.routes.ts';
import { secondPersonRoutes } from './second-person/second-person.routes.ts';
import { sessionRoutes } from './session/session.routes.ts';
import { serveBoard } from './static.ts';
import { wallDisplayRoutes } from './wall-displays/wall-displays.routes.ts';
import { wardRoutes } from './wards/wards.routes.ts';

/** Puts all features onto the app: what browsers may do, who is asking, the routes, the board's own files. */
export async function registerModules(app: FastifyInstance, parts: Parts) {
  answerProblems(app);
  app.setSerializerCompiler(() => JSON.stringify);
  await app.register(cookie);
  const rules = await ruleBrowsers(app, parts.https);
  await describeRoutes(app);
  guardRequests(app, parts.access, parts.https);
  app.addHook('onSend', async (request, reply) => {
    if (isApi(request) && !reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
  });

  const router = app.withTypeProvider<ZodTypeProvider>();
  sessionRoutes(router, parts);
  accountRoutes(router, parts);
  entryRoutes(router, parts);
  outboxRoutes(router, parts);
  secondPersonRoutes(router, parts);
  bedsideRoutes(router, parts);
  expectedDrainRoutes(router, parts);
  healthRoutes(router, parts);
  lotRoutes(router, parts);
  patientRoutes(router, parts);
  prescriptionRoutes(router, parts);
  roundsRoutes(router, parts);
  wardRoutes(router, parts);
  wallDisplayRoutes(router, parts);
  boardRoutes(router, parts);
  alertRoutes(router, parts);
  hookRoutes(router, parts);
  auditRoutes(router, parts);
  importRoutes(router, parts);
  answerKnownBoards(app, parts, rules);
  await serveBoard(app, parts.boardFolder);
}
