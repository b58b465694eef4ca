import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';

/** Servers run on the first core, whoever asks them on the last; the database goes where the machine puts it. */
export const SERVER_CORE = '0';
export const GENERATOR_CORE = String(availableParallelism() - 1);
export const ALL_CORES = `0-${availableParallelism() - 1}`;

/** Whether processes can be held on a core: `taskset` of util-linux. */
export const canPin = ((): boolean => {
  try {
    execFileSync('taskset', ['-p', String(process.pid)], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

/** Holds a process, with all its threads, on some cores. Does nothing on a machine without `taskset`. */
export function pin(pid: number, cores: string): void {
  if (canPin) execFileSync('taskset', ['-a', '-c', '-p', cores, String(pid)], { stdio: 'ignore' });
}

/** Clock ticks a second of Linux on every platform that Node runs on. */
const TICKS_PER_SECOND = 100;

/** Processor time that a process has used, ms; null where the system does not tell (`/proc`, Linux). */
function cpuMsOf(pid: number): number | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // the name in brackets may hold blanks; user and system time are the 14th and 15th field
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return ((Number(fields[11]) + Number(fields[12])) * 1000) / TICKS_PER_SECOND;
  } catch {
    return null;
  }
}

/** Counts processor time and operations of a process, window by window. */
export function cpuPerOperation(pid: number) {
  let cpuMs = 0;
  let operations = 0;
  return {
    async around(work: () => Promise<number>): Promise<number> {
      const before = cpuMsOf(pid);
      const done = await work();
      const after = cpuMsOf(pid);
      if (before !== null && after !== null) {
        cpuMs += after - before;
        operations += done;
      }
      return done;
    },
    words: (): string => (operations === 0 ? 'CPU not known' : `${microseconds(cpuMs / operations)} of CPU each`),
  };
}

const microseconds = (ms: number) => (ms < 1 ? `${Math.round(ms * 1000)} µs` : `${ms.toFixed(1)} ms`);
