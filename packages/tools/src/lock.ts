import { randomBytes } from 'node:crypto';
import { readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { setTimeout } from 'node:timers/promises';

const LOOK_EVERY_MS = 50;
/** A lock is written right after it is made: an empty one that is older was left by a crash. */
const EMPTY_FOR_MS = 2_000;

/**
 * Does the work while no other process of this machine does work under the same lock. The lock of a process that is
 * dead is taken over.
 * @param file made for the time of the work; names the process that holds it
 */
export async function withLock<T>(file: string, work: () => Promise<T>): Promise<T> {
  const mine = `${process.pid} ${randomBytes(8).toString('hex')}`;
  while (!(await take(file, mine))) {
    await takeFromTheDead(file);
    await setTimeout(LOOK_EVERY_MS);
  }
  try {
    return await work();
  } finally {
    if ((await holderOf(file)) === mine) await rm(file, { force: true });
  }
}

async function take(file: string, mine: string): Promise<boolean> {
  try {
    await writeFile(file, mine, { flag: 'wx', mode: 0o600 });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    // on a full disk it was made and holds nothing
    await rm(file, { force: true });
    throw error;
  }
}

async function takeFromTheDead(file: string): Promise<void> {
  const holder = await holderOf(file);
  if (holder === null || !(await isDead(file, holder))) return;
  const aside = `${file}-${process.pid}-${randomBytes(4).toString('hex')}`;
  try {
    await rename(file, aside);
    // somebody may have taken it over meanwhile: then it is given back
    if ((await holderOf(aside)) === holder) await rm(aside);
    else await rename(aside, file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

const holderOf = (file: string) => readFile(file, 'utf8').catch(() => null);

async function isDead(file: string, holder: string): Promise<boolean> {
  if (holder === '') {
    const made = await stat(file).catch(() => null);
    return made !== null && Date.now() - made.mtimeMs > EMPTY_FOR_MS;
  }
  try {
    process.kill(Number.parseInt(holder, 10), 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
}
