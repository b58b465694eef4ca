/**
 * An instant: whole milliseconds since 1970-01-01T00:00:00Z.
 * Instants are plain numbers everywhere (record, wire, board), so that a countdown is one subtraction;
 * `Temporal` is used only where the ward's calendar matters (`time/zone.ts`).
 */
export type EpochMs = number;

export const MINUTE_MS = 60_000;
export const HOUR_MS = 60 * MINUTE_MS;

/** Minutes from `from` to `to`; fractions kept, negative when `to` is earlier. */
export const minutesBetween = (from: EpochMs, to: EpochMs): number => (to - from) / MINUTE_MS;

/** The instant `minutes` after `at`. */
export const plusMinutes = (at: EpochMs, minutes: number): EpochMs => at + Math.round(minutes * MINUTE_MS);
