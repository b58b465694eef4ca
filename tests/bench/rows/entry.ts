import { type Arm, compare } from '../harness/arms.ts';
import { cpuPerOperation } from '../harness/cores.ts';
import { pool } from '../harness/databases.ts';
import { askFor, openClient, requestBytes } from '../harness/http-client.ts';
import type { Row } from '../harness/measure.ts';
import { serve, serveApp, signIn } from '../harness/servers.ts';
import { seedWard } from '../harness/ward.ts';
import { weightOf } from '../harness/weight.ts';

const CLIENTS = 8;
const PATIENTS = 24;

/**
 * A weight, written by 8 nurses at 8 beds over HTTP, beside the very statements that it comes to, sent straight over `pg`
 * by as many connections.
 */
export const entry: Row = {
  name: 'entry',
  async run({ databases, pace }) {
    const database = await databases.open();
    const db = pool(database.appUrl);
    const { patientIds, accounts } = await seedWard(db, PATIENTS);
    await db.end();
    const app = await serveApp(database.appUrl);
    const author = accounts.get('okoro')!.id;
    // beds of their own, so that neither arm meets the other's versions
    const straight = await serve(
      'straight-entries.ts',
      database.appUrl,
      author,
      ...patientIds.slice(CLIENTS, 2 * CLIENTS),
    );
    const cookie = await signIn(app.url);
    const clients = await Promise.all(Array.from({ length: CLIENTS }, () => openClient(app.url)));
    const url = new URL('/api/entries', app.url);
    const request = (client: number) =>
      requestBytes('POST', url, { cookie, origin: app.url.origin }, JSON.stringify(weightOf(patientIds[client]!)));
    const appCpu = cpuPerOperation(app.pid);
    const straightCpu = cpuPerOperation(straight.pid);
    const overHttp: Arm = async (windowMs) => {
      const startedAt = performance.now();
      const written = await appCpu.around(() => askFor(windowMs, clients, request, { status: 200 }));
      return (written * 1000) / (performance.now() - startedAt);
    };
    const overPg: Arm = async (windowMs) => {
      let rate = 0;
      await straightCpu.around(async () => {
        const answer = await fetch(new URL(`/?windowMs=${windowMs}`, straight.url));
        const { written, tookMs } = (await answer.json()) as { written: number; tookMs: number };
        rate = (written * 1000) / tookMs;
        return written;
      });
      return rate;
    };
    try {
      const { ratio, quartiles, a, b } = await compare(overHttp, overPg, pace);
      return [
        {
          what: `entry by HTTP ÷ its statements straight on \`pg\`, ${CLIENTS} clients`,
          value: ratio,
          unit: '×',
          bar: { at: 'least', value: 0.6 },
          quartiles,
          beside: `${Math.round(a)} entries/s, ${appCpu.words()}; straight ${Math.round(b)}/s, ${straightCpu.words()}`,
        },
      ];
    } finally {
      for (const client of clients) client.close();
      await app.stop();
      await straight.stop();
      await database.drop();
    }
  },
};
