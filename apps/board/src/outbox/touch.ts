import type { Draft, EpochMs } from '@slackwater/domain';

/** The device's clocks at one moment. */
export type ClockReading = {
  /** What the device takes for the time of day, epoch ms. */
  deviceAt: EpochMs;
  /** A clock that only runs forward, ms; it may stand still while the device sleeps. */
  monotonicAt: number;
  /** Which life of the page the monotonic clock counts in: another page, or a restart, counts anew. */
  life: number;
};

/** What one touch wrote, as it waits: all of it goes in, or none. */
export type Touch = {
  wardId: string;
  patientId: string | null;
  drafts: readonly Draft[];
  /** The ward's time at the touch, as this device knew it. */
  writtenAt: EpochMs;
  /** null: of a format that did not note it. */
  clock: ClockReading | null;
  /** Ids of drafts whose time a person typed: no clock moves them. */
  typed: readonly string[];
  /** Somebody has said that the times are right. */
  timesSaid: boolean;
};

/** The format in which this build writes. Decoders of earlier ones are kept for ever. */
export const TOUCH_FORMAT = 2;

/** Format 1 noted no clock. */
type Touch1 = Pick<Touch, 'wardId' | 'patientId' | 'drafts' | 'writtenAt'>;

const DECODERS: Readonly<Record<number, (stored: unknown) => Touch>> = {
  1: (stored) => ({ ...(stored as Touch1), clock: null, typed: [], timesSaid: false }),
  2: (stored) => stored as Touch,
};

/** Whether this build can read a format; a newer one is kept untouched until a newer build comes. */
export const isReadable = (format: number): boolean => format in DECODERS;

/** @param stored what was sealed under `format` */
export const decodeTouch = (format: number, stored: unknown): Touch => {
  const decode = DECODERS[format];
  if (!decode) throw new Error(`A queue of format ${format} is not read by this build.`);
  return decode(stored);
};
