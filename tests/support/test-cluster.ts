import { chmod, mkdir, rmdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { type Cluster, startCluster } from '@slackwater/tools/cluster';

/** Speed over safety: nothing in it outlives the run. Crash tests start a cluster of their own. */
const SETTINGS = ['fsync=off', 'synchronous_commit=off', 'full_page_writes=off', 'max_connections=300'];

/** Starts the run's cluster or adopts it; workers that come at once wait for the first. */
export async function openTestCluster(folder: string): Promise<Cluster> {
  await chmod(folder, 0o755);
  const lock = join(folder, 'starting');
  while (
    !(await mkdir(lock).then(
      () => true,
      () => false,
    ))
  )
    await setTimeout(20);
  try {
    return await startCluster(folder, SETTINGS);
  } finally {
    await rmdir(lock);
  }
}

/** Stops it where it was ever started. */
export async function stopTestCluster(folder: string): Promise<void> {
  const wasStarted = await stat(join(folder, 'pg', 'postmaster.pid')).then(
    () => true,
    () => false,
  );
  if (wasStarted) await (await startCluster(folder, SETTINGS)).stop();
}
