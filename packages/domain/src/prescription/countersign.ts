import { type EpochMs, HOUR_MS } from '../time/instant.ts';
import type { WardSettings } from '../ward/policy.ts';
import type { Telephone } from './prescription.ts';

/** Until when an order is to be countersigned; null for one that the physician wrote. */
export const countersignByOf = (
  telephone: Telephone | null,
  givenAt: EpochMs,
  { countersignHours }: Pick<WardSettings, 'countersignHours'>,
): EpochMs | null => (telephone === null ? null : givenAt + countersignHours * HOUR_MS);
