import { execFile } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdir, open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** A data folder whose disk can be full. */
export type SmallDisk = {
  folder: string;
  /**
   * A file system of its own, of a fixed size. Only root may mount one: anywhere else the folder is an ordinary one, and
   * who uses it has the database say that its disk is full.
   */
  isReal: boolean;
  /** Takes all space that is left. */
  fill(): Promise<void>;
  free(): Promise<void>;
  remove(): Promise<void>;
};

/** @param megabytes a new cluster of Postgres with the tables of the tool takes about 60 */
export async function smallDisk(megabytes: number): Promise<SmallDisk> {
  const folder = join(tmpdir(), `slackwater-disk-${randomUUID()}`);
  await mkdir(folder, { mode: 0o755 });
  const isReal = await run('mount', [
    '-t',
    'tmpfs',
    '-o',
    `size=${megabytes}m,mode=0755`,
    'slackwater-test',
    folder,
  ]).then(
    () => true,
    () => false,
  );
  const ballast = join(folder, 'ballast');
  return {
    folder,
    isReal,
    fill: () => fillDisk(ballast),
    free: () => rm(ballast, { force: true }),
    async remove() {
      if (isReal) await run('umount', ['--lazy', folder]);
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** In ever smaller pieces, to the last block. */
async function fillDisk(ballast: string): Promise<void> {
  const file = await open(ballast, 'a');
  try {
    for (let size = 2 ** 20; size >= 2 ** 10; ) {
      try {
        await file.write(Buffer.alloc(size, 1));
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
        size /= 2;
      }
    }
  } finally {
    await file.close();
  }
}
