import type { Beat } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import { after, type Connection, STALE_AFTER_MS, type StreamEvent } from './connection.ts';
import type { Message } from './line.ts';
import { applied, type Delta, fromSnapshot, type IdOf, type Rows, type Snapshot } from './rows.ts';

/** Alarms written up to an instant older than this mean that nobody watches. */
const UNWATCHED_AFTER_MS = 30_000;

/** What a screen sees of a ward; a new object whenever, and only when, something in it changed. */
export type WardNow<Row> = {
  connection: Connection;
  rows: Rows<Row> | null;
  /** When the rows last changed; null before the first change that came down the line. */
  changedAt: EpochMs | null;
  /** Set when the server does not watch the alarms: since when. */
  unwatchedSince: EpochMs | null;
  /** The server runs another build than the one this page was loaded from. */
  otherBuild: boolean;
};

export type WardSource<Row> = {
  /** Everything, at the ward's newest position. */
  whole: () => Promise<Snapshot<Row>>;
  /** What changed after a position; null where only the whole can be had (the wall's rows name no patient). */
  since: ((position: number) => Promise<Delta<Row>>) | null;
  idOf: IdOf<Row>;
  line: (listener: (message: Message<Row>) => void) => () => void;
  now: () => EpochMs;
  /** Told the server's time as it comes, for the ward's clock. */
  heardClock: (serverAt: EpochMs) => void;
  /** Told the ids of rows that came, changed or went. */
  changed: (ids: readonly string[]) => void;
  /** Told when every row came anew: so it is after a change of the ward's settings, which are in no row. */
  allNew: () => void;
};

/** Keeps a ward's rows as fresh as the line allows, and says how fresh that is. */
export const createWardLive = <Row>(source: WardSource<Row>) => {
  const { now, idOf } = source;
  const listeners = new Set<() => void>();
  let connection: Connection = { state: 'connecting', heardAt: now(), since: now() };
  let state: WardNow<Row> = {
    connection,
    rows: null,
    changedAt: null,
    unwatchedSince: null,
    otherBuild: false,
  };
  let firstBuild: string | null = null;
  let closeLine: (() => void) | null = null;
  let silence: ReturnType<typeof setTimeout> | undefined;
  let catching: Promise<void> | null = null;
  let again = false;

  const set = (change: Partial<WardNow<Row>>) => {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  };

  const step = (event: StreamEvent, at: EpochMs = now()) => {
    const before = connection.state;
    connection = after(connection, event, at);
    if (event === 'heard') {
      clearTimeout(silence);
      silence = setTimeout(() => step('silent'), STALE_AFTER_MS - (now() - at));
    }
    // While live, when it was last heard is nobody's business: no render for a beat that says nothing new.
    if (connection.state !== before) set({ connection });
  };

  const take = (rows: Rows<Row>, ids: readonly string[]) => {
    set({ rows, changedAt: state.rows === null ? state.changedAt : now() });
    source.changed(ids);
    const came = new Set(ids);
    if ([...rows.byId.keys()].every((id) => came.has(id))) source.allNew();
  };

  const takeDelta = (delta: Delta<Row>): boolean => {
    if (state.rows === null) return false;
    const next = applied(state.rows, delta, idOf);
    if (typeof next === 'string') return false;
    if (next !== state.rows) take(next, [...delta.rows.map(idOf), ...delta.gone]);
    return true;
  };

  const fetchWhole = async () => {
    const rows = fromSnapshot(await source.whole(), idOf);
    if (state.rows?.epoch === rows.epoch && state.rows.position >= rows.position) return;
    take(rows, [...rows.byId.keys()]);
  };

  const fetchMissing = async () => {
    if (state.rows === null || source.since === null) return fetchWhole();
    if (!takeDelta(await source.since(state.rows.position))) await fetchWhole();
  };

  /** One question at a time; whoever asks meanwhile is answered by one more at the end. */
  const catchUp = (fetch: () => Promise<void>) => {
    if (catching) {
      again = true;
      return;
    }
    catching = fetch()
      // No answer: the line will say so itself, and the next beat asks again.
      .catch(() => {})
      .finally(() => {
        catching = null;
        if (!again) return;
        again = false;
        catchUp(fetchMissing);
      });
  };

  const beat = (message: Beat) => {
    firstBuild ??= message.build;
    const otherBuild = message.build !== firstBuild;
    const { alarmsThrough } = message;
    const unwatched = alarmsThrough !== null && message.serverAt - alarmsThrough > UNWATCHED_AFTER_MS;
    const unwatchedSince = unwatched ? alarmsThrough : null;
    if (otherBuild !== state.otherBuild || unwatchedSince !== state.unwatchedSince) set({ otherBuild, unwatchedSince });
    if (state.rows === null || message.epoch !== state.rows.epoch) catchUp(fetchWhole);
    else if (message.position > state.rows.position) catchUp(fetchMissing);
  };

  const hear = (message: Message<Row>) => {
    if (message.type === 'lost') return step('lost');
    if (message.type === 'beat') {
      if (message.ageMs === 0) source.heardClock(message.beat.serverAt);
      step('heard', now() - message.ageMs);
      return beat(message.beat);
    }
    step('heard');
    if (source.since === null || !takeDelta(message.delta)) catchUp(fetchMissing);
  };

  const open = () => {
    // Rows of an earlier visit to this screen are as old as they are, whatever the new line will bring.
    const old = state.rows !== null && now() - connection.heardAt > STALE_AFTER_MS;
    connection = { ...connection, state: old ? 'stale' : 'connecting', since: now() };
    state = { ...state, connection };
    silence = setTimeout(() => step('silent'), STALE_AFTER_MS);
    closeLine = source.line(hear);
  };

  return {
    /** Rows that a loader has just fetched: the board stands before the line does. */
    begin: (snapshot: Snapshot<Row>) => {
      const rows = fromSnapshot(snapshot, idOf);
      const newer = state.rows === null || state.rows.epoch !== rows.epoch || state.rows.position < rows.position;
      connection = { ...connection, heardAt: now() };
      state = { ...state, connection, rows: newer ? rows : state.rows };
    },
    subscribe: (listener: () => void) => {
      listeners.add(listener);
      if (closeLine === null) open();
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0) return;
        clearTimeout(silence);
        closeLine?.();
        closeLine = null;
      };
    },
    current: () => state,
  };
};

export type WardLive<Row> = ReturnType<typeof createWardLive<Row>>;
