import { existsSync } from 'node:fs';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { answerNotFound } from '../problems.handler.ts';

/**
 * Serves the built board. Its screens are addresses of the browser's own router, so an unknown address is answered
 * with the page itself; an unknown file or API address is not.
 * @param folder where the board was built to; null: the API alone
 */
export async function serveBoard(app: FastifyInstance, folder: string | null) {
  if (folder === null || !existsSync(folder)) {
    app.setNotFoundHandler(answerNotFound);
    return;
  }
  await app.register(fastifyStatic, {
    root: folder,
    preCompressed: true,
    cacheControl: false,
    setHeaders: (response, path) => {
      // files under assets/ carry a hash of their content in their name
      const isHashed = path.includes('/assets/');
      response.header('cache-control', isHashed ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
  app.setNotFoundHandler((request, reply) => {
    const wantsPage = request.method === 'GET' && (request.headers.accept ?? '').includes('text/html');
    if (!wantsPage || request.url.startsWith('/api/')) return answerNotFound(request, reply);
    return reply.header('cache-control', 'no-cache').sendFile('index.html');
  });
}
