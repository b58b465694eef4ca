import type { BoardDelta, BoardSnapshot, WallSnapshot } from '@slackwater/contract';
import type { BoardRow, EpochMs, WallRow } from '@slackwater/domain';
import { useSyncExternalStore } from 'react';
import { api } from '../api/client.ts';
import { serverClock } from '../api/clock.ts';
import { NoAnswer } from '../api/problems.ts';
import { patientKey, sessionQuery, wardQuery } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';
import { openLine } from './line.ts';
import type { Snapshot } from './rows.ts';
import { createWardLive, type WardLive, type WardNow } from './ward-live.ts';

const boards = new Map<string, WardLive<BoardRow>>();
const walls = new Map<string, WardLive<WallRow>>();

const once = <Value>(kept: Map<string, Value>, key: string, make: () => Value): Value => {
  const known = kept.get(key) ?? make();
  kept.set(key, known);
  return known;
};

const address = (wardId: string, what: string) => `/api/wards/${encodeURIComponent(wardId)}/${what}`;

/** So far ahead of a beat that has just come the clock is wrong, not the line slow: asked again by a round trip. */
const AHEAD_MS = 5000;

const heardClock = (serverAt: EpochMs): void => {
  serverClock.atLeast(serverAt);
  if (serverClock.now() - serverAt > AHEAD_MS) queryClient.refetchQueries({ queryKey: sessionQuery.queryKey });
};

const boardOf = (wardId: string) =>
  once(boards, wardId, () =>
    createWardLive<BoardRow>({
      whole: () => api.get<BoardSnapshot>(address(wardId, 'board')),
      since: (position) => api.get<BoardDelta>(address(wardId, `board?since=${position}`)),
      idOf: (row) => row.patient.id,
      line: (listener) => openLine(address(wardId, 'stream'), listener),
      now: serverClock.now,
      heardClock,
      changed: (ids) => {
        for (const id of ids) queryClient.invalidateQueries({ queryKey: patientKey(id) });
      },
      allNew: () => queryClient.invalidateQueries({ queryKey: wardQuery(wardId).queryKey }),
    }),
  );

const wallOf = (wardId: string) =>
  once(walls, wardId, () =>
    createWardLive<WallRow>({
      whole: () => api.get<WallSnapshot>(address(wardId, 'wall')),
      since: null,
      idOf: (row) => row.bed,
      line: (listener) => openLine(address(wardId, 'stream'), listener),
      now: serverClock.now,
      heardClock,
      changed: () => {},
      // The wall shows no setting, and its rows always come all at once.
      allNew: () => {},
    }),
  );

/** Fetches the rows before the screen is drawn; rows of an earlier visit serve where no answer comes, with their age. */
const load = async <Row>(ward: WardLive<Row>, fetch: () => Promise<Snapshot<Row>>): Promise<void> => {
  try {
    ward.begin(await fetch());
  } catch (problem) {
    if (!(problem instanceof NoAnswer) || ward.current().rows === null) throw problem;
  }
};

export const loadBoard = (wardId: string): Promise<void> =>
  load(boardOf(wardId), () => api.get<BoardSnapshot>(address(wardId, 'board')));

export const loadWall = (wardId: string): Promise<void> =>
  load(wallOf(wardId), () => api.get<WallSnapshot>(address(wardId, 'wall')));

/** The ward's rows, live while the screen is shown, and how fresh they are. */
export const useBoard = (wardId: string): WardNow<BoardRow> => {
  const board = boardOf(wardId);
  return useSyncExternalStore(board.subscribe, board.current);
};

export const useWall = (wardId: string): WardNow<WallRow> => {
  const wall = wallOf(wardId);
  return useSyncExternalStore(wall.subscribe, wall.current);
};

/** Signing out leaves nothing of a ward behind. */
export const forgetWards = (): void => {
  boards.clear();
  walls.clear();
};
