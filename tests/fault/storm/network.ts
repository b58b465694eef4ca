import { once } from 'node:events';
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';
import { setTimeout } from 'node:timers/promises';

/**
 * What can happen to one recording on its way: cut before the server has it; cut after the server wrote it and before
 * its answer is through; swallowed; byte by byte; delivered twice at once.
 */
export const DISTURBANCES = ['cutBefore', 'cutAfter', 'swallowed', 'trickled', 'doubled'] as const;

/** Held: it, or its answer, never arrives, and nothing says so. */
export type Disturbance = (typeof DISTURBANCES)[number] | 'heldBefore' | 'heldAfter';

const RECORDING = 'POST /api/entries ';
/** A network that lost a connection says so at last. */
const SWALLOWED_FOR_MS = 250;

export type Network = Awaited<ReturnType<typeof openNetwork>>;

/** A network of our own before a server: it passes everything on, and disturbs the next recordings as asked. */
export async function openNetwork(port: number) {
  const armed: Disturbance[] = [];
  const sockets = new Set<Socket>();
  const keep = (socket: Socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => sockets.delete(socket));
    return socket;
  };
  const way = createServer((near) => pass(keep(near)));
  way.listen(0, '127.0.0.1');
  await once(way, 'listening');

  function pass(near: Socket) {
    let far: Socket | undefined;
    let answers: 'pass' | 'cut' | 'held' = 'pass';
    const upstream = () => {
      if (far) return far;
      far = keep(connect(port, '127.0.0.1'));
      far.on('data', (answer) => {
        if (answers === 'cut') near.resetAndDestroy();
        if (answers === 'pass') near.write(answer);
      });
      far.on('close', () => near.destroy());
      return far;
    };
    near.on('close', () => far?.destroy());

    let waiting = Buffer.alloc(0);
    // one after the other: a server may answer before it has all of a request, and the next one then comes at once
    let passing = Promise.resolve();
    near.on('data', (chunk: Buffer) => {
      waiting = Buffer.concat([waiting, chunk]);
      if (!isWhole(waiting)) return;
      const request = waiting;
      waiting = Buffer.alloc(0);
      passing = passing.then(() => passOn(request));
    });

    async function passOn(request: Buffer): Promise<void> {
      if (near.destroyed) return;
      const disturbance = request.toString('latin1').startsWith(RECORDING) ? armed.shift() : undefined;
      switch (disturbance) {
        case 'cutBefore':
          near.resetAndDestroy();
          return;
        case 'cutAfter':
          answers = 'cut';
          upstream().write(request);
          return;
        case 'heldBefore':
          return;
        case 'heldAfter':
          answers = 'held';
          upstream().write(request);
          return;
        case 'swallowed':
          await setTimeout(SWALLOWED_FOR_MS);
          near.resetAndDestroy();
          return;
        case 'trickled':
          for (const byte of request) {
            if (near.destroyed) return;
            upstream().write(Buffer.of(byte));
            await setTimeout(1);
          }
          return;
        case 'doubled':
          keep(connect(port, '127.0.0.1')).end(request);
          upstream().write(request);
          return;
        case undefined:
          upstream().write(request);
      }
    }
  }

  return {
    url: `http://127.0.0.1:${(way.address() as AddressInfo).port}`,
    /** The next recording that comes by is disturbed so. */
    disturb: (how: Disturbance) => armed.push(how),
    /** Whether every disturbance that was asked for has happened. */
    isThrough: () => armed.length === 0,
    close() {
      way.close();
      for (const socket of sockets) socket.destroy();
    },
  };
}

/** A request with all of its body. Each client sends one after the other. */
function isWhole(bytes: Buffer): boolean {
  const end = bytes.indexOf('\r\n\r\n');
  if (end === -1) return false;
  const length = /content-length: (\d+)/i.exec(bytes.toString('latin1', 0, end))?.[1] ?? '0';
  return bytes.length >= end + 4 + Number(length);
}
