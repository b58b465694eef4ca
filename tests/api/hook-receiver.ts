import { createServer, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';
import { listOf } from '@slackwater/api/alarms/hooks/addresses';
import type { Hook } from '@slackwater/api/alarms/hooks/hook';

/** As a paging system was sent it: headers, and the very bytes of the body. */
export type Received = { headers: IncomingHttpHeaders; body: string; method: string; path: string };

type Answer = { status: number; headers?: Record<string, string> };

/** A receiver on this machine. What it answers may be changed while it runs. */
export async function hookReceiver(
  answer: (received: Received, count: number) => Answer | 'silence' = () => ({ status: 204 }),
) {
  const received: Received[] = [];
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', () => {
      const one = {
        headers: request.headers,
        body: Buffer.concat(chunks).toString('utf8'),
        method: request.method ?? '',
        path: request.url ?? '',
      };
      received.push(one);
      const said = answer(one, received.length);
      if (said === 'silence') return;
      response.writeHead(said.status, said.headers).end();
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    received,
    port,
    url: `http://127.0.0.1:${port}/alerts`,
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

/** 32 bytes, for tests alone. */
export const KEY = Buffer.from('a key of thirty-two bytes, quite');
export const SECRET = `whsec_${KEY.toString('base64')}`;

export const hookTo = (url: string, ranks: Hook['ranks'] = ['high', 'medium', 'low']): Hook => ({
  url,
  key: KEY,
  ranks,
});

export const THIS_MACHINE = ['127.0.0.1'];
export const thisMachine = listOf(THIS_MACHINE);
