import type { EpochMs } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { Policies } from '../record/policies.ts';
import type { Hook } from './hooks/hook.ts';
import { READ_NEXT } from './sweep.sql.ts';
import { sweep } from './sweep.ts';
import { createWatch } from './watch.ts';

/** With nothing due soon the next instant is read this often: it also moves `through` on. */
const LOOK_EVERY_MS = 5_000;
/** What another process holds is looked at again after this, and so is every write that was heard of. */
const LOOK_SOON_MS = 200;
/** One decides about a ward while the database writes for the other. */
const TOGETHER = 2;

export type AlarmsOptions = {
  siteId: string;
  pool: Pool;
  policies: Policies;
  /** Told of what is raised, taken up a step and cleared; none: nobody outside the ward is. */
  hooks?: readonly Hook[];
  /** Told of sweeps that failed and of bedsides that could not be decided about. */
  onTrouble: (error: Error) => void;
};

export type Alarms = {
  start(): void;
  /** Somebody wrote: what is due next may have changed. */
  wake(): void;
  /** Everything due before this instant of the database's clock was dealt with; null before the first look. */
  through(): EpochMs | null;
  stop(): Promise<void>;
};

/**
 * Watches what falls due with nobody pressing anything. The instants stand in the database, so nothing is lost with a
 * process; this only waits for the next of them, and every process of a site may do so.
 */
export function createAlarms({ siteId, pool, policies, hooks = [], onTrouble }: AlarmsOptions): Alarms {
  let through: EpochMs | null = null;
  let isStopped = false;
  /** Bedsides that could not be decided about: since when, and when they are tried again. */
  const failing = new Map<string, { at: EpochMs; againAt: EpochMs }>();

  const watch = createWatch(look, onTrouble);

  /** Deals with all that is due. @returns after how many milliseconds to look again */
  async function look(): Promise<number> {
    while (!isStopped) {
      const { rows } = await pool.query<{ nextAt: EpochMs | null; now: EpochMs }>({ ...READ_NEXT, values: [siteId] });
      const { nextAt, now } = rows[0]!;
      if (nextAt === null || nextAt > now) forgetMended(now);
      through = Math.min(now, nextAt ?? now, ...[...failing.values()].map(({ at }) => at));
      if (nextAt === null) return LOOK_EVERY_MS;
      if (nextAt > now) return Math.min(nextAt - now, LOOK_EVERY_MS);
      const taken = await sweepTogether();
      if (taken === 0) return LOOK_SOON_MS;
    }
    return LOOK_EVERY_MS;
  }

  /** @returns how many bedsides were taken */
  async function sweepTogether(): Promise<number> {
    const swept = await Promise.all(Array.from({ length: TOGETHER }, () => sweep(pool, policies, siteId, hooks)));
    for (const { patientId, at, againAt, error } of swept.flatMap(({ failed }) => failed)) {
      failing.set(patientId, { at: failing.get(patientId)?.at ?? at, againAt });
      onTrouble(error);
    }
    return swept.reduce((sum, { taken }) => sum + taken, 0);
  }

  /** With nothing due any more, whatever was to be tried again by now was, and did not fail again. */
  function forgetMended(now: EpochMs): void {
    for (const [patientId, { againAt }] of failing) if (againAt <= now) failing.delete(patientId);
  }

  return {
    start: () => watch.lookIn(0),
    wake: () => watch.lookIn(LOOK_SOON_MS),
    through: () => through,
    async stop() {
      isStopped = true;
      await watch.stop();
    },
  };
}
