import { setTimeout } from 'node:timers/promises';
import { pool } from '../harness/databases.ts';
import { openEventStream } from '../harness/event-stream.ts';
import { type HttpClient, openClient, requestBytes } from '../harness/http-client.ts';
import type { Measure, Row } from '../harness/measure.ts';
import { type Held, inspectable } from '../harness/memory-of.ts';
import { serveApp, signIn } from '../harness/servers.ts';
import { slopeOf } from '../harness/slope.ts';
import { openStalledStream, type StalledStream } from '../harness/stalled-stream.ts';
import { seedWard, WARD } from '../harness/ward.ts';
import { weightOf } from '../harness/weight.ts';

const PATIENTS = 24;
const STREAMS = 100;
const STALLED = 20;
/** So many looks, and this many changes before each. A fifth of the stalled streams is opened anew at each. */
const LOOKS = 30;
const CHANGES_A_LOOK = 400;
/** Before the first look: code is compiled, connections are made, buffers reach their size. */
const WARM_UP_LOOKS = 8;
const RENEWED_A_LOOK = STALLED / 5;
/** 200 patients × 5 exchanges × 10 entries a day. */
const CHANGES_AN_HOUR = 417;

/**
 * What the server holds while 100 boards watch, 20 of which never read, and the changes of a day and more of a large ward
 * come in without pause. By the hour of such a ward, since it is changes that fill what is unsent.
 */
export const memory: Row = {
  name: 'memory',
  async run({ databases, pace }) {
    const looks = pace.windowMs < 1000 ? 8 : LOOKS;
    const database = await databases.open();
    const db = pool(database.appUrl);
    const { patientIds } = await seedWard(db, PATIENTS);
    await db.end();
    const { settings, look } = await inspectable();
    const app = await serveApp(database.appUrl, settings);
    const inspector = await look(app.pid);
    try {
      const cookie = await signIn(app.url);
      const client = await openClient(app.url);
      const stream = new URL(`/api/wards/${WARD}/stream`, app.url);
      const headers = { cookie, accept: 'text/event-stream' };
      for (let open = 0; open < STREAMS - STALLED; open += 1) await openEventStream(stream, headers, () => undefined);
      const stalled: StalledStream[] = [];
      for (let open = 0; open < STALLED; open += 1) stalled.push(await openStalledStream(stream, headers));

      const held: Held[] = [];
      let cutOff = 0;
      const startedAt = performance.now();
      for (let turn = -WARM_UP_LOOKS; turn < looks; turn += 1) {
        await change(client, app.url, cookie, patientIds);
        for (let renewed = 0; renewed < RENEWED_A_LOOK; renewed += 1) {
          if (await stalled.shift()!.leave()) cutOff += 1;
          stalled.push(await openStalledStream(stream, headers));
        }
        // what was written last is on its way
        await setTimeout(200);
        const now = await inspector.held();
        if (turn >= 0) held.push(now);
      }
      const minutes = (performance.now() - startedAt) / 60_000;
      client.close();
      if (cutOff === 0) throw new Error('No stalled stream was cut off: nothing was unsent for long enough.');
      const said = `${looks * CHANGES_A_LOOK} changes in ${minutes.toFixed(1)} min; ${cutOff} stalled streams cut off`;
      return [
        measureOf('heap after collection', held, ({ heapMb }) => heapMb, said),
        measureOf('resident memory', held, ({ residentMb }) => residentMb, said),
      ];
    } finally {
      inspector.close();
      await app.stop();
      await database.drop();
    }
  },
};

/** Weights at one bed after another. */
async function change(client: HttpClient, server: URL, cookie: string, patientIds: readonly string[]): Promise<void> {
  const url = new URL('/api/entries', server);
  for (let sent = 0; sent < CHANGES_A_LOOK; sent += 1) {
    const body = JSON.stringify(weightOf(patientIds[sent % patientIds.length]!));
    const status = await client.send(requestBytes('POST', url, { cookie, origin: server.origin }, body));
    if (status !== 200) throw new Error(`A weight was answered ${status}.`);
  }
}

function measureOf(what: string, held: readonly Held[], of: (held: Held) => number, said: string): Measure {
  const hoursEach = CHANGES_A_LOOK / CHANGES_AN_HOUR;
  const { slope, lower, upper } = slopeOf(held.map((one, index) => ({ x: index * hoursEach, y: of(one) })));
  const [first, last] = [of(held[0]!), of(held.at(-1)!)].map((megabytes) => megabytes.toFixed(1));
  return {
    what: `${what}, ${STREAMS} streams, ${STALLED} of them stalled: slope by the hour of a ward of 200`,
    value: slope,
    unit: 'MB/h',
    bar: { at: 'most', value: 1 },
    quartiles: null,
    beside: `95 % interval ${lower.toFixed(3)} to ${upper.toFixed(3)}; ${first} → ${last} MB; ${said}`,
  };
}
