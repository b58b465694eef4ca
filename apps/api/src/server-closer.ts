import type { Server } from 'node:http';
import type { Socket } from 'node:net';
import type { FastifyInstance } from 'fastify';

const CLOSE_WITHIN_MS = 5_000;
const LOOK_EVERY_MS = 50;

/**
 * Made before the server listens, since it keeps its connections: one that speaks HTTP/2 cannot close them all itself.
 * @returns how to close it. Lets running requests end, for a while. A connection that falls idle after the server began
 * to close would be kept open for its full keep-alive time, so those are looked for again and again; one whose other
 * end takes nothing, as a tablet asleep, is cut.
 */
export function serverCloser(server: FastifyInstance): () => Promise<void> {
  const http: Server = server.server;
  const connections = new Set<Socket>();
  http.on('connection', (connection) => {
    connections.add(connection);
    connection.once('close', () => connections.delete(connection));
  });

  return async () => {
    const idle = setInterval(() => http.closeIdleConnections?.(), LOOK_EVERY_MS);
    const late = setTimeout(() => {
      for (const connection of connections) connection.destroy();
    }, CLOSE_WITHIN_MS);
    try {
      await server.close();
    } finally {
      clearInterval(idle);
      clearTimeout(late);
    }
  };
}
