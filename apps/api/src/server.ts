import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type Database, openDatabase } from '@slackwater/tools/database';
import { migrate } from '@slackwater/tools/migrate';
import { projectRoot } from '@slackwater/tools/paths';
import { type FastifyServerOptions, LogController } from 'fastify';
import { type App, buildApp } from './app.ts';
import { buildId } from './build-id.ts';
import { checkDatabase } from './check-database.ts';
import { type Config, ConfigError, readConfig } from './config.ts';
import { openHospital } from './hospital.ts';
import { isPortTaken } from './port.ts';
import { withProgress } from './progress.ts';

// The process: configuration, port, database, app, signals. Everything else is put together in app.ts.

let app: App | undefined;
let database: Database | undefined;
let isClosing = false;

async function start(config: Config): Promise<void> {
  if (await isPortTaken(config.port, config.host)) {
    throw new ConfigError(
      `Port ${config.port} on ${config.host} is taken: stop what listens there, or start with another PORT.`,
    );
  }
  database = await withProgress('Opening the database', () => openDatabase(config.where));
  const { ownerUrl, appUrl } = database;
  if (ownerUrl) await withProgress('Bringing the database up to date', () => migrate(ownerUrl));
  await withProgress('Checking the database', () => checkDatabase(appUrl));
  const boardFolder = join(projectRoot, 'apps/board/dist');
  app = await buildApp({
    databaseUrl: appUrl,
    siteId: config.site.id,
    https: config.tls !== null || config.trustProxy !== null,
    boardFolder,
    build: await buildId(boardFolder),
    fastify: await fastifyOptions(config),
  });
  const greeting = await openHospital(config, app);
  await app.server.listen({ port: config.port, host: config.host });
  console.log(`\nSlackwater is at ${addressOf(config)}\n${greeting}\nCtrl-C stops it.`);
}

async function fastifyOptions({ logLevel, trustProxy, tls }: Config): Promise<FastifyServerOptions> {
  const redact = ['req.headers.cookie', 'req.headers.authorization', 'res.headers["set-cookie"]'];
  return {
    logger: logLevel === 'silent' ? false : { level: logLevel, redact },
    // a request's address may hold what somebody searched for: a name
    logController: new LogController({ disableRequestLogging: true }),
    ...(trustProxy && { trustProxy: [...trustProxy] }),
    ...(tls && {
      http2: true,
      https: { allowHTTP1: true, cert: await readFile(tls.certFile), key: await readFile(tls.keyFile) },
    }),
  } as FastifyServerOptions;
}

const addressOf = ({ tls, host, port }: Config) =>
  `${tls ? 'https' : 'http'}://${host.includes(':') ? `[${host}]` : host}:${port}`;

async function close(): Promise<void> {
  if (isClosing) return;
  isClosing = true;
  await app?.close();
  await database?.stop();
}

for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.on(signal, () => {
    close().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  });
}

try {
  await start(readConfig(process.env));
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  await close().catch(() => undefined);
  process.exit(1);
}
