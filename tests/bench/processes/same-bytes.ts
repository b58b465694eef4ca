// node same-bytes.ts URL HEADERS: answers every request with the head and the body that URL gave once.
import { createServer, get, type IncomingMessage } from 'node:http';
import { tell } from './listen.ts';

const [url, headers] = process.argv.slice(2);
const answer = await new Promise<IncomingMessage>((resolve, reject) => {
  get(url!, { headers: JSON.parse(headers!) }, resolve).on('error', reject);
});
const body = Buffer.concat(await answer.toArray());
const status = answer.statusCode!;
// what belongs to the one connection, and the date, node writes anew
const own = new Set(['connection', 'keep-alive', 'date', 'transfer-encoding']);
const head = Object.fromEntries(Object.entries(answer.headers).filter(([name]) => !own.has(name)));

const server = createServer((_, response) => {
  response.writeHead(status, head as Record<string, string>);
  response.end(body);
});
server.listen(0, '127.0.0.1', () => tell(server));
