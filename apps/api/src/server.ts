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
import { tellHeads } from './record/tell-heads.ts';

// The process: configuration, port, database, app, signals. Everything else is put together in app.ts.

let app: App | undefined;
let database: Database | undefined;
let stopTellingHeads: (() => Promise<void>) | undefined;
let closing: Promise<void> | undefined;

/** Each step is taken only while nobody has asked to stop. */
async function start(config: Config): Promise<void> {
  if (await isPortTaken(config.port, config.host)) {
    throw new ConfigError(
      `Port ${config.port} on ${config.host} is taken: stop what listens there, or start with another PORT.`,
    );
  }
  database = await withProgress('Opening the database', () => openDatabase(config.where));
  database.keepAlive((line) => console.log(line));
  const { ownerUrl, appUrl } = database;
  if (closing) return;
  if (ownerUrl) await withProgress('Bringing the database up to date', () => migrate(ownerUrl));
  if (closing) return;
  await withProgress('Checking the database', () => checkDatabase(appUrl));
  if (closing) return;
  const boardFolder = join(projectRoot, 'apps/board/dist');
  app = await buildApp({
    databaseUrl: appUrl,
    siteId: config.site.id,
    https: config.tls !== null || config.trustProxy !== null,
    boardFolder,
    build: await buildId(boardFolder),
    hooks: config.hooks,
    fastify: await fastifyOptions(config),
  });
  if (closing) return;
  const greeting = await openHospital(config, app);
  if (closing) return;
  await app.server.listen({ port: config.port, host: config.host });
  console.log(`\nSlackwater is at ${addressOf(config)}\n${greeting}\nCtrl-C stops it.`);
  const { pool, server } = app;
  // on the console at every log level: a log that is kept elsewhere is what shows a tail that was cut off
  stopTellingHeads = tellHeads({
    siteId: config.site.id,
    pool,
    tell: (line) => console.log(line),
    onTrouble: (error) => server.log.error({ err: error }, error.message),
  });
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

/** Ends the app, then the database where nobody else uses it. A start under way comes to the end of its step first. */
async function close(starting: Promise<void>): Promise<void> {
  await starting.catch(() => undefined);
  await stopTellingHeads?.();
  await app?.close();
  await database?.stop();
}

/** One Ctrl-C may reach us two or three times: from the terminal, from npm, from a watcher. */
const SAME_CTRL_C_MS = 2_000;

function stopOnSignals(starting: Promise<void>): void {
  let askedAt = 0;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      if (closing) {
        // asked again: at once, and the next start finds the database as it stands
        if (performance.now() - askedAt > SAME_CTRL_C_MS) process.exit(1);
        return;
      }
      askedAt = performance.now();
      closing = close(starting);
      closing.then(
        () => process.exit(0),
        (error: unknown) => {
          console.error(error);
          process.exit(1);
        },
      );
    });
  }
}

try {
  const starting = start(readConfig(process.env));
  stopOnSignals(starting);
  await starting;
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  closing ??= close(Promise.resolve());
  await closing.catch(() => undefined);
  process.exit(1);
}
