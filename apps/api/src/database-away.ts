import { codeBehind } from './prisma-failures.ts';

type Failure = Error & { code?: string; severity?: string };

/** The connection broke or could not be made; Postgres is starting, ending or full; Prisma's words for the same. */
const AWAY_CODES: ReadonlySet<string> = new Set([
  'ECONNREFUSED',
  'ECONNRESET',
  'EPIPE',
  'ETIMEDOUT',
  '08000',
  '08001',
  '08003',
  '08006',
  '53300',
  '57P01',
  '57P02',
  '57P03',
  'P1001',
  'P1002',
  'P1017',
  'P2024',
]);

/** The driver's failures that carry no code: the server went without a word, or no connection came free in time. */
const AWAY_WORDS =
  /^(Connection terminated|Client has encountered a connection error|Client was closed|timeout (exceeded|expired))/;

/** Whether the database is out of reach or going down, so that the same request will do a little later. */
export const isDatabaseAway = (error: Failure): boolean => {
  // its last words before it goes down, whatever drove it to that: nobody knows what of the request stands
  if (error.severity === 'PANIC') return true;
  const code = codeBehind(error) ?? error.code;
  return code === undefined ? AWAY_WORDS.test(error.message) : AWAY_CODES.has(code);
};

/** No space left: as Postgres says it (disk_full), and as the system does. */
const FULL_CODES: ReadonlySet<string> = new Set(['53100', 'ENOSPC', 'EDQUOT']);

/** Whether a disk of the server is full, so that nothing can be written before somebody makes space. */
export const isDiskFull = (error: Failure): boolean => FULL_CODES.has(codeBehind(error) ?? error.code ?? '');
