import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { stopTestCluster } from './test-cluster.ts';

declare module 'vitest' {
  interface ProvidedContext {
    clusterFolder: string;
  }
}

/** One folder for the run's database; the first test that asks for a database starts it, the end of the run stops it. */
export default async function setup(project: TestProject) {
  const folder = await mkdtemp(join(tmpdir(), 'slackwater-test-'));
  project.provide('clusterFolder', folder);
  return async () => {
    await stopTestCluster(folder);
    await rm(folder, { recursive: true, force: true });
  };
}
