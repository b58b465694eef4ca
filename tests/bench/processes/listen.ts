import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Tells the bench where a server listens, and ends the process when the bench lets go of it. */
export function tell(server: Server): void {
  process.send?.({ port: (server.address() as AddressInfo).port });
  process.on('disconnect', () => process.exit(0));
}
