import type { EpochMs } from '@slackwater/domain';

/** How the stream of a ward stands. Only `live` and `reconnecting` may show running countdowns. */
export type StreamState =
  /** Nothing was heard yet. */
  | 'connecting'
  | 'live'
  /** The line is gone for less than `STALE_AFTER_MS`. */
  | 'reconnecting'
  /** Nothing was heard for `STALE_AFTER_MS`: due times stay true, countdowns do not. */
  | 'stale';

export type StreamEvent =
  /** A beat or rows came. */
  | 'heard'
  /** The line broke or could not be opened. */
  | 'lost'
  /** `STALE_AFTER_MS` passed without hearing anything. */
  | 'silent';

/** Beats come every 15 s; two missed ones are no accident. */
export const STALE_AFTER_MS = 30_000;

/** What becomes of the stream; a missing cell does not compile. */
export const STREAM_TABLE: Record<StreamState, Record<StreamEvent, StreamState>> = {
  connecting: { heard: 'live', lost: 'connecting', silent: 'stale' },
  live: { heard: 'live', lost: 'reconnecting', silent: 'stale' },
  reconnecting: { heard: 'live', lost: 'reconnecting', silent: 'stale' },
  stale: { heard: 'live', lost: 'stale', silent: 'stale' },
};

export type Connection = {
  state: StreamState;
  /** The ward's time when something was last heard; of the start while nothing was. */
  heardAt: EpochMs;
  /** When it came into `state`. */
  since: EpochMs;
};

/** The connection after an event at `now`. */
export const after = (connection: Connection, event: StreamEvent, now: EpochMs): Connection => {
  const state = STREAM_TABLE[connection.state][event];
  const heardAt = event === 'heard' ? now : connection.heardAt;
  return { state, heardAt, since: state === connection.state ? connection.since : now };
};
