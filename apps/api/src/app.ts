import { PrismaPg } from '@prisma/adapter-pg';
import { MINUTE_MS } from '@slackwater/domain';
import { UTC_SESSION } from '@slackwater/tools/session';
import Fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify';
import pg from 'pg';
import { PrismaClient } from '../../../prisma/generated/client.ts';
import { type Access, openAccess } from './access/access.ts';
import { type Alarms, createAlarms } from './alarms/alarms.ts';
import { createDeliveries, type Deliveries } from './alarms/hooks/deliveries.ts';
import { type Hooks, NO_HOOKS } from './alarms/hooks/hook.ts';
import { createLive, type Live } from './live/live.ts';
import { registerModules } from './modules/register.ts';
import { openPool } from './pool.ts';
import { answerConnectionError, answerFrameworkError } from './problems.handler.ts';
import { createPolicies } from './record/policies.ts';
import { createRecord } from './record/record.ts';
import { serverCloser } from './server-closer.ts';

export type AppOptions = {
  /** As the role slackwater_app; direct or session-pooled. */
  databaseUrl: string;
  siteId: string;
  https: boolean;
  boardFolder: string | null;
  build: string;
  fastify?: FastifyServerOptions;
  /** false: no process of this app watches what falls due (a test that sweeps by itself). */
  watchAlarms?: boolean;
  /** Paging systems that are told of alerts; none without. */
  hooks?: Hooks;
};

export type App = {
  server: FastifyInstance;
  pool: pg.Pool;
  access: Access;
  live: Live;
  alarms: Alarms;
  deliveries: Deliveries;
  /** Ends streams, requests, sweeps and connections, in that order. */
  close(): Promise<void>;
};

/** Composes the server and begins to listen to the database and to watch what falls due. */
export async function buildApp(options: AppOptions): Promise<App> {
  const app = await composeApp(options);
  await app.live.start();
  if (options.watchAlarms !== false) app.alarms.start();
  app.deliveries.start();
  return app;
}

/** Connections of one process: writes are short, and Postgres serves 200. */
const POOL_SIZE = 12;

/** The largest flow sheet, 100 MB, over 1 Mbit/s; a body that trickles for ever would keep its connection for ever. */
const WHOLE_REQUEST_WITHIN_MS = 15 * MINUTE_MS;

/**
 * Puts the server together: database, record, live, alarms, access, routes. Nothing connects yet.
 */
export async function composeApp(options: AppOptions): Promise<App> {
  const { databaseUrl, siteId, https, boardFolder, build, hooks = NO_HOOKS } = options;
  const server = Fastify({
    forceCloseConnections: 'idle',
    requestTimeout: WHOLE_REQUEST_WITHIN_MS,
    frameworkErrors: answerFrameworkError,
    clientErrorHandler: answerConnectionError,
    ...options.fastify,
  }) as unknown as FastifyInstance;
  const onTrouble = (error: Error) => server.log.error({ err: error }, error.message);
  const pool = openPool({ url: databaseUrl, name: 'slackwater', max: POOL_SIZE }, onTrouble);
  const prisma = new PrismaClient({ adapter: new PrismaPg(pool) });
  const policies = createPolicies();
  const access = openAccess(pool, siteId);
  const alarms = createAlarms({ siteId, pool, policies, hooks: hooks.hooks, onTrouble });
  const deliveries = createDeliveries({ siteId, pool, hooks, onTrouble });
  const live: Live = createLive({
    siteId,
    pool,
    policies,
    build,
    listeningClient: () =>
      access.hearEnded(
        new pg.Client({ connectionString: databaseUrl, options: UTC_SESSION, application_name: 'slackwater-listen' }),
        (accountId) => live.checkStreamsOf(accountId),
      ),
    alarmsThrough: alarms.through,
    onPosition: () => {
      alarms.wake();
      deliveries.wake();
    },
    onTrouble,
  });

  const closeServer = serverCloser(server);
  server.addHook('preClose', async () => live.endStreams());
  await registerModules(server, {
    pool,
    prisma,
    access,
    policies,
    record: createRecord({ pool, policies, hooks: hooks.hooks }),
    hooks,
    live,
    https,
    boardFolder,
  });
  return {
    server,
    pool,
    access,
    live,
    alarms,
    deliveries,
    async close() {
      await closeServer();
      await alarms.stop();
      await deliveries.stop();
      await live.stop();
      await prisma.$disconnect();
      await pool.end();
    },
  };
}
