// One of several processes that tell the hooks: node courier.ts DATABASE_URL HOOK_URL. Says "watching", then sends until
// it is stopped.
import { createDeliveries } from '../../../apps/api/src/alarms/hooks/deliveries.ts';
import { hookTo, THIS_MACHINE } from '../hook-receiver.ts';
import { pool, SITE } from '../record-ward.ts';

const db = pool(process.argv[2]!, 2);
const deliveries = createDeliveries({
  siteId: SITE,
  pool: db,
  hooks: { hooks: [hookTo(process.argv[3]!)], inside: THIS_MACHINE },
  onTrouble: (error) => console.error(error),
});
deliveries.start();
process.on('SIGTERM', async () => {
  await deliveries.stop();
  await db.end();
});
console.log('watching');
