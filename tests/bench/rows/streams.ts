import { randomUUIDv7 } from 'node:crypto';
import { openWard } from '@slackwater/api/record/open-ward';
import { createPolicies } from '@slackwater/api/record/policies';
import { createRecord } from '@slackwater/api/record/record';
import { MINUTE_MS } from '@slackwater/domain';
import { type Arm, compare } from '../harness/arms.ts';
import { pool } from '../harness/databases.ts';
import { openEventStream } from '../harness/event-stream.ts';
import type { Row } from '../harness/measure.ts';
import { median } from '../harness/quantiles.ts';
import { type Served, serve, serveApp, signIn } from '../harness/servers.ts';
import { addPatient, SITE, seedWard, WARD } from '../harness/ward.ts';

const STREAMS = 200;
const OTHER_WARD = 'plover';
const BETWEEN_MS = 10;

/**
 * From the commit of a weight to the last of 200 boards that are told of it, half of them at each of two processes. Beside
 * them two bare processes that hear the same notification of the same commit, of another ward, and write as many bytes.
 */
export const streams: Row = {
  name: 'streams',
  async run({ databases, pace }) {
    const database = await databases.open();
    const db = pool(database.appUrl);
    const { accounts, patientIds, scenario } = await seedWard(db, 24);
    await openWard(db, { siteId: SITE, ...scenario.ward, id: OTHER_WARD, beds: ['1'] });
    const author = { accountId: accounts.get('okoro')!.id, role: 'nurse' } as const;
    const charge = { accountId: accounts.get('adair')?.id ?? author.accountId, role: 'chargeNurse' } as const;
    const record = createRecord({ pool: db, policies: createPolicies() });
    const append = async (by: typeof author | typeof charge, wardId: string, draft: object) => {
      const drafts = [{ id: randomUUIDv7(), format: 1, visitId: null, after: null, ...draft }] as never;
      const result = await record.append({ siteId: SITE, wardId, author: by, deviceAt: Date.now(), drafts });
      if (!result.ok) throw new Error(JSON.stringify(result.failure));
      return result.appended.position;
    };
    const elsewhere = await addPatient(db, { ...scenario.patients[0]!, hospitalNumber: 'AP 599999' });
    const happenedAt = Date.now() - 5 * MINUTE_MS;
    const admission = { bed: '1', inside: { cavity: 'empty' }, dialysis: 'chronic' };
    await append(charge, OTHER_WARD, { kind: 'admitted', payload: admission, patientId: elsewhere, happenedAt });
    /** Commits a weight. @returns the ward's position after it */
    const commit = (wardId: string, patientId: string) => {
      const weight = { kind: 'weight', payload: { weightKg: 70, cavity: 'full' } };
      return append(author, wardId, { ...weight, patientId, happenedAt: Date.now() - MINUTE_MS });
    };

    const apps = await Promise.all([serveApp(database.appUrl), serveApp(database.appUrl)]);
    const bare: Served[] = [];
    try {
      const cookie = await signIn(apps[0].url);
      const path = `/api/wards/${WARD}/stream`;
      const mine = await watch(apps, path, { cookie });
      const first = mine.reached();
      const eventBytes = await first.after(await commit(WARD, patientIds[0]!));
      bare.push(
        ...(await Promise.all(
          [1, 2].map(() => serve('bare-streams.ts', database.appUrl, OTHER_WARD, String(eventBytes))),
        )),
      );
      const theirs = await watch(bare, '/', {});
      const armOf = (watched: typeof mine, wardId: string, patientId: string): Arm => {
        return async (windowMs) => {
          const until = performance.now() + windowMs;
          const waits: number[] = [];
          while (performance.now() < until) {
            const reached = watched.reached();
            const position = await commit(wardId, patientId);
            const committedAt = performance.now();
            await reached.after(position);
            waits.push(Math.max(0, reached.lastAt() - committedAt));
            await new Promise((resolve) => setTimeout(resolve, BETWEEN_MS));
          }
          return median(waits);
        };
      };
      const { ratio, quartiles, a, b } = await compare(
        armOf(mine, WARD, patientIds[0]!),
        armOf(theirs, OTHER_WARD, elsewhere),
        pace,
      );
      mine.close();
      theirs.close();
      return [
        {
          what: `commit → last of ${STREAMS} streams over two processes ÷ a bare write loop`,
          value: ratio,
          unit: '×',
          bar: { at: 'most', value: 1.5 },
          quartiles,
          beside: `${a.toFixed(1)} ms; bare ${b.toFixed(1)} ms; ${eventBytes} bytes to each`,
        },
      ];
    } finally {
      for (const served of [...apps, ...bare]) await served.stop();
      await db.end();
      await database.drop();
    }
  },
};

/** Opens the streams, by turns at each server. */
async function watch(servers: readonly Served[], path: string, headers: Readonly<Record<string, string>>) {
  let heard: (position: number, bytes: number) => void = () => {};
  const open = await Promise.all(
    Array.from({ length: STREAMS }, (_, index) =>
      openEventStream(new URL(path, servers[index % servers.length]!.url), headers, (position, bytes) =>
        heard(position, bytes),
      ),
    ),
  );
  return {
    /** Begins to listen for an event that every stream brings. */
    reached() {
      const seen: { position: number; at: number; bytes: number }[] = [];
      let check = () => {};
      let last = 0;
      heard = (position, bytes) => {
        seen.push({ position, bytes, at: performance.now() });
        check();
      };
      return {
        /** @returns the bytes of the event once all streams have brought that position */
        after: (position: number) =>
          new Promise<number>((resolve) => {
            check = () => {
              const reached = seen.filter((one) => one.position >= position);
              if (reached.length < STREAMS) return;
              last = Math.max(...reached.map(({ at }) => at));
              resolve(reached[0]!.bytes);
            };
            check();
          }),
        lastAt: () => last,
      };
    },
    close() {
      for (const close of open) close();
    },
  };
}
