// A server process with one board: node board.ts DATABASE_URL. Prints the snapshot, then every event of its stream.
import pg from 'pg';
import { createLive } from '../../../apps/api/src/live/live.ts';
import { createPolicies } from '../../../apps/api/src/record/policies.ts';
import { pool, SITE, WARD } from '../record-ward.ts';

const url = process.argv[2]!;
const db = pool(url, 2);
const live = createLive({
  siteId: SITE,
  pool: db,
  policies: createPolicies(),
  listeningClient: () => new pg.Client({ connectionString: url, options: '-c TimeZone=UTC' }),
  build: 'test',
  alarmsThrough: () => null,
  onPosition: () => {},
  onTrouble: (error) => console.error(error),
});
await live.start();
await live.join({
  wardId: WARD,
  projection: 'staff',
  lastPosition: null,
  accountId: 'somebody',
  mayStill: async () => true,
  sink: {
    writableLength: 0,
    write: (text) => process.stdout.write(text),
    end() {},
    destroy() {},
  },
});
const snapshot = await live.snapshot(WARD, 'staff');
process.stdout.write(`event: snapshot\ndata: ${await snapshot.body('identity')}\n\n`);
process.on('SIGTERM', async () => {
  await live.stop();
  await db.end();
});
