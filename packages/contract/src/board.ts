import type { BoardRow, EpochMs, WallRow } from '@slackwater/domain';

/** `GET /api/wards/:ward/board`: the whole board at one position. `epoch` changes with every restore. */
export type BoardSnapshot = { epoch: string; wardId: string; position: number; rows: readonly BoardRow[] };

/** `?since=N`, and the stream's event `rows`: what changed after `from`; whom the board no longer shows. */
export type BoardDelta = {
  epoch: string;
  from: number;
  to: number;
  rows: readonly BoardRow[];
  gone: readonly string[];
};

/** `GET /api/wards/:ward/wall` */
export type WallSnapshot = { epoch: string; wardId: string; position: number; rows: readonly WallRow[] };

/** The same for a wall display. */
export type WallDelta = Omit<BoardDelta, 'rows'> & { rows: readonly WallRow[] };

/** The stream's event `beat`, at once and every 15 s: nothing for 30 s means stale. */
export type Beat = {
  epoch: string;
  position: number;
  serverAt: EpochMs;
  build: string;
  /** Alarms are watched through this instant; older than 30 s means that nobody watches. null: not yet known. */
  alarmsThrough: EpochMs | null;
};
