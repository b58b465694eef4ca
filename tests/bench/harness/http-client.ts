import { connect, type Socket } from 'node:net';

/**
 * A client that costs next to nothing, so that the server is what is measured: one kept connection, requests as bytes made
 * before, answers counted by their `content-length` and not read.
 */
export type HttpClient = {
  /** Sends and waits for the whole answer. @returns its status */
  send(request: Buffer): Promise<number>;
  close(): void;
};

const END_OF_HEAD = Buffer.from('\r\n\r\n');
const LENGTH = /content-length: (\d+)/i;

export async function openClient({ hostname, port }: URL): Promise<HttpClient> {
  const socket = connect({ host: hostname, port: Number(port), noDelay: true });
  await new Promise<void>((resolve, reject) => {
    socket.once('connect', resolve);
    socket.once('error', reject);
  });
  let waiting: PromiseWithResolvers<number> | null = null;
  let head: Buffer | null = null;
  let left = 0;
  let status = 0;

  const finish = () => {
    const done = waiting;
    waiting = null;
    done?.resolve(status);
  };
  const readHead = (chunk: Buffer) => {
    head = head === null ? chunk : Buffer.concat([head, chunk]);
    const end = head.indexOf(END_OF_HEAD);
    if (end < 0) return;
    const text = head.toString('latin1', 0, end);
    status = Number(text.slice(9, 12));
    const length = status === 304 ? 0 : Number(LENGTH.exec(text)?.[1] ?? Number.NaN);
    if (Number.isNaN(length)) throw new Error(`An answer without a length:\n${text}`);
    left = length - (head.length - end - END_OF_HEAD.length);
    head = null;
    if (left <= 0) finish();
  };
  socket.on('data', (chunk: Buffer) => {
    if (left > 0) {
      left -= chunk.length;
      if (left <= 0) finish();
    } else readHead(chunk);
  });
  const fail = (error: Error) => waiting?.reject(error);
  socket.on('error', fail);
  socket.on('close', () => fail(new Error('The server closed the connection.')));

  return {
    send(request) {
      waiting = Promise.withResolvers<number>();
      socket.write(request);
      return waiting.promise;
    },
    close: () => endOf(socket),
  };
}

const endOf = (socket: Socket) => {
  socket.removeAllListeners('close');
  socket.destroy();
};

/** A request's bytes. */
export function requestBytes(
  method: 'GET' | 'POST',
  url: URL,
  headers: Readonly<Record<string, string>>,
  body = '',
): Buffer {
  const lines = Object.entries({
    host: url.host,
    ...headers,
    ...(body === '' ? {} : { 'content-length': String(Buffer.byteLength(body)), 'content-type': 'application/json' }),
  }).map(([name, value]) => `${name}: ${value}`);
  return Buffer.from(`${method} ${url.pathname}${url.search} HTTP/1.1\r\n${lines.join('\r\n')}\r\n\r\n${body}`);
}

/**
 * Several clients ask without pause for a window.
 * @param onOther told of an answer of another status; it throws, or puts right what is asked
 * @returns how many answers came as expected
 */
export async function askFor(
  windowMs: number,
  clients: readonly HttpClient[],
  next: (client: number) => Buffer,
  { status: expected, onOther }: { status: number; onOther?: (status: number) => Promise<void> },
): Promise<number> {
  const until = performance.now() + windowMs;
  let answers = 0;
  await Promise.all(
    clients.map(async (client, index) => {
      while (performance.now() < until) {
        const status = await client.send(next(index));
        if (status === expected) answers += 1;
        else if (onOther) await onOther(status);
        else throw new Error(`Answered ${status}, expected ${expected}.`);
      }
    }),
  );
  return answers;
}
