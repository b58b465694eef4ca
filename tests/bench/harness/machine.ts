import { cpus, totalmem } from 'node:os';
import { canPin } from './cores.ts';

/** What the numbers were measured on, in one line. */
export function machineWords(postgresVersion: string): string {
  const [first] = cpus();
  const gigabytes = Math.round(totalmem() / 2 ** 30);
  return [
    `${first?.model.trim() ?? 'unknown processor'}, ${cpus().length} cores, ${gigabytes} GB`,
    `Node ${process.versions.node}`,
    `PostgreSQL ${postgresVersion} with fsync on`,
    canPin ? 'server and generator pinned to different cores' : 'nothing pinned (no taskset)',
  ].join(' · ');
}
