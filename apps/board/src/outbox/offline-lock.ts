import type { EpochMs } from '@slackwater/domain';

type Idle = {
  /** When this person last wrote or gave a password on this device; null: not known. */
  lastActAt: EpochMs | null;
  now: EpochMs;
  idleLockMs: number;
  /** A visit to this bed is under way. */
  visitOpen: boolean;
};

/**
 * Whether writing is locked on a device without network, where no password can be checked: after the idle time, but
 * never in the middle of a visit, whose hands cannot wait for a line.
 */
export const isLockedOffline = ({ lastActAt, now, idleLockMs, visitOpen }: Idle): boolean =>
  !visitOpen && (lastActAt === null || now - lastActAt >= idleLockMs);
