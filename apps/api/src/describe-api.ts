import { composeApp } from './app.ts';
import { openApiText } from './modules/openapi.ts';

/** The description of all routes, made without a database: nothing in it depends on one. */
export async function describeApi(): Promise<string> {
  const app = await composeApp({
    databaseUrl: 'postgresql://127.0.0.1/never-connected',
    siteId: 'none',
    https: true,
    boardFolder: null,
    build: 'description',
    fastify: { logger: false },
  });
  await app.server.ready();
  const text = openApiText(app.server);
  await app.close();
  return text;
}
