import { once } from 'node:events';
import { connect } from 'node:net';
import { setTimeout } from 'node:timers/promises';

/** Long enough for what the system still holds of a stream to arrive. */
const DRAINED_AFTER_MS = 300;

export type StalledStream = {
  /** Reads at last, and leaves. @returns whether the server had cut it off meanwhile */
  leave(): Promise<boolean>;
};

/** A board that opens its stream and never reads a byte of it, as a tablet does that went to sleep. */
export async function openStalledStream(url: URL, headers: Readonly<Record<string, string>>): Promise<StalledStream> {
  const socket = connect({ host: url.hostname, port: Number(url.port) });
  socket.on('error', () => undefined);
  socket.pause();
  await once(socket, 'connect');
  const lines = Object.entries({ host: url.host, ...headers }).map(([name, value]) => `${name}: ${value}`);
  socket.write(`GET ${url.pathname} HTTP/1.1\r\n${lines.join('\r\n')}\r\n\r\n`);
  return {
    async leave() {
      const closed = once(socket, 'close').then(() => true);
      socket.on('data', () => undefined);
      socket.resume();
      const wasCut = await Promise.race([closed, setTimeout(DRAINED_AFTER_MS, false)]);
      socket.destroy();
      return wasCut;
    },
  };
}
