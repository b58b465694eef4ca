// node bare-streams.ts DATABASE_URL WARD BYTES: a bare write loop. Whenever it hears of a position of that ward it writes
// an event of so many bytes to every open answer.
import { createServer, type ServerResponse } from 'node:http';
import { POSITION_CHANNEL } from '@slackwater/api/record/statements.sql';
import pg from 'pg';
import { tell } from './listen.ts';

const [databaseUrl, ward, bytes] = process.argv.slice(2);
const open = new Set<ServerResponse>();
const listener = new pg.Client({ connectionString: databaseUrl!, application_name: 'bench-listen' });
await listener.connect();
await listener.query(`LISTEN ${POSITION_CHANNEL}`);
listener.on('notification', ({ payload }) => {
  const [, wardId, position] = /\/([^:]+):(\d+)$/.exec(payload ?? '') ?? [];
  if (wardId !== ward) return;
  const head = `event: rows\nid: ${position}\ndata: `;
  const event = `${head}${'x'.repeat(Number(bytes) - head.length - 2)}\n\n`;
  for (const response of open) response.write(event);
});

const server = createServer((_, response) => {
  response.writeHead(200, { 'content-type': 'text/event-stream; charset=utf-8' });
  response.flushHeaders();
  open.add(response);
  response.on('close', () => open.delete(response));
});
server.listen(0, '127.0.0.1', () => tell(server));
