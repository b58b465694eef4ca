import { type EpochMs, HOUR_MS } from '../time/instant.ts';
import type { WardSettings } from '../ward/settings.ts';

/**
 * Whether a catheter is new at an instant: put in within the ward's days. One of which nobody recorded when it was put
 * in is taken for new, since a hole in bladder or bowel must not be missed for a missing date.
 */
export const isNewCatheter = (
  insertedAt: EpochMs | null,
  at: EpochMs,
  { newCatheterDays }: Pick<WardSettings, 'newCatheterDays'>,
): boolean => insertedAt === null || at - insertedAt <= newCatheterDays * 24 * HOUR_MS;
