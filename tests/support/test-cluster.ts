import { chmod, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { type Cluster, startCluster } from '@slackwater/tools/cluster';

/** Speed over safety: nothing in it outlives the run. Crash tests start a cluster of their own. */
const SETTINGS = ['fsync=off', 'synchronous_commit=off', 'full_page_writes=off', 'max_connections=300'];

/** Starts the run's cluster or adopts it; workers that come at once wait for the first. */
export async function openTestCluster(folder: string): Promise<Cluster> {
  await chmod(folder, 0o755);
  return startCluster(folder, SETTINGS);
}

/** Stops it where it was ever started. */
export async function stopTestCluster(folder: string): Promise<void> {
  const wasStarted = await stat(join(folder, 'pg', 'postmaster.pid')).then(
    () => true,
    () => false,
  );
  if (wasStarted) await (await startCluster(folder, SETTINGS)).stop();
}
