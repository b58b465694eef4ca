import { type EpochMs, HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';

/** The shared time axis: two hours back, eight ahead. */
export const BACK_MS = 2 * HOUR_MS;
export const AHEAD_MS = 8 * HOUR_MS;
export const SPAN_MINUTES = (BACK_MS + AHEAD_MS) / MINUTE_MS;

/**
 * Everything on the axis is drawn from a fixed instant, two hours before the current full hour; the passing minutes
 * only push the whole drawing to the left (`shiftPercent`). So a minute costs one number, not two hundred drawings.
 */
export const originAt = (now: EpochMs): EpochMs => Math.floor(now / HOUR_MS) * HOUR_MS - BACK_MS;

/** Minutes from the origin. */
export const minuteOf = (at: EpochMs, origin: EpochMs): number => (at - origin) / MINUTE_MS;

/** Per cent of the axis from the origin. */
export const percentOf = (at: EpochMs, origin: EpochMs): number => (100 * minuteOf(at, origin)) / SPAN_MINUTES;

/** How far the drawing is pushed to the left at `now`, in per cent of the axis: 0 to 10. */
export const shiftPercent = (now: EpochMs, origin: EpochMs): number => percentOf(now - BACK_MS, origin);
