import { createServer } from 'node:net';

/** Whether something listens there already; asked before the database is touched. */
export function isPortTaken(port: number, host: string): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(true);
      else reject(error);
    });
    probe.listen(port, host, () => probe.close(() => resolve(false)));
  });
}
