// One of several processes that watch: node watcher.ts DATABASE_URL. Says "watching", then sweeps until it is stopped.
import { createAlarms } from '../../../apps/api/src/alarms/alarms.ts';
import { createPolicies } from '../../../apps/api/src/record/policies.ts';
import { pool, SITE } from '../record-ward.ts';

const db = pool(process.argv[2]!, 2);
const alarms = createAlarms({
  siteId: SITE,
  pool: db,
  policies: createPolicies(),
  onTrouble: (error) => console.error(error),
});
alarms.start();
process.on('SIGTERM', async () => {
  await alarms.stop();
  await db.end();
});
console.log('watching');
