import type { ResponseTexts } from '../effluent/response-texts.ts';
import type { ClockTime } from '../prescription/prescription.ts';
import type { Solution } from '../solution/solution.ts';
import type { Supplies } from '../solution/supplies.ts';
import type { WardSettings } from './settings.ts';

/** Everything that a ward decides for itself. Defaults, ranges and sources stand in `ward/settings`. */
export type WardPolicy = {
  /** Version of the settings; an alert says which it was raised under. */
  version: number;
  /** IANA zone: only the ward day and the shifts know it. */
  zone: string;
  /** First is also the start of the ward day. */
  shiftStarts: readonly ClockTime[];
  formulary: readonly Solution[];
  /** Products by their codes, and recalled lots: the hospital's, like the formulary. */
  supplies: Supplies;
  settings: WardSettings;
  /** What the ward words for itself of the responses to findings. */
  responses: ResponseTexts;
};
