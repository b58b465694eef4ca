import type { Beat } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import type { Client, Pool } from 'pg';
import type { Policies } from '../record/policies.ts';
import { createListener, type WardPosition } from './listen.ts';
import { PROJECTIONS, type Projection } from './projection.ts';
import { createSnapshots, type Snapshot } from './snapshot.ts';
import { eventText, type Sink, type Stream, Streams } from './streams.ts';
import { WardBoard } from './ward-board.ts';

const BEAT_EVERY_MS = 15_000;

export type LiveOptions = {
  siteId: string;
  pool: Pool;
  policies: Policies;
  /** A client of its own for LISTEN, not yet connected, direct or session-pooled. */
  listeningClient: () => Client;
  /** Names this release: a board of another one reloads between patients. */
  build: string;
  /** Through when alarms are watched; null: not yet known. */
  alarmsThrough: () => EpochMs | null;
  /** Somebody wrote somewhere: what is due may have changed. */
  onPosition: () => void;
  /** Told of a lost connection and of boards that could not be read. */
  onTrouble: (error: Error) => void;
};

export type Joining = {
  wardId: string;
  projection: Projection;
  sink: Sink;
  accountId: string;
  mayStill: () => Promise<boolean>;
  /** The last position that this board has (`Last-Event-ID`); null: it will ask. */
  lastPosition: number | null;
};

/** The only way out. */
export type Live = {
  start(): Promise<void>;
  /** The whole board, at the position that this process knows to be the newest. */
  snapshot(wardId: string, projection: Projection): Promise<Snapshot>;
  /** The same where nothing has to be read for it; else null. */
  knownSnapshot(wardId: string, projection: Projection): Snapshot | null;
  /** What changed after a position, as JSON text. */
  since(wardId: string, projection: Projection, position: number): Promise<string>;
  /** Opens a stream: a beat at once, what was missed, then everything as it comes. @returns how to leave it. */
  join(joining: Joining): Promise<() => void>;
  /** Sessions of this account have ended, or its rights changed: its streams end now if they may no longer be. */
  checkStreamsOf(accountId: string): void;
  /** Ends all streams; a server that closes would wait for them for ever. */
  endStreams(): void;
  status(): { build: string; listening: boolean; streams: number; alarmsThrough: EpochMs | null };
  stop(): Promise<void>;
};

type Ward = {
  board: WardBoard;
  streams: Streams;
  snapshot: (projection: Projection) => Snapshot;
  isPublishing: boolean;
  /** The highest position heard of while it was being published; 0 = none. */
  wanted: number;
};

export function createLive(options: LiveOptions): Live {
  const { siteId, pool, policies, build, alarmsThrough, onTrouble } = options;
  const wards = new Map<string, Ward>();
  let clockOffsetMs = 0;
  let beats: NodeJS.Timeout | undefined;

  const listener = createListener({
    siteId,
    client: options.listeningClient,
    onPosition(wardId, position) {
      const ward = wards.get(wardId);
      // first those who look on: what is due may have changed, but not by this very instant
      if (ward !== undefined && isBehind(ward, position, null)) publish(ward, position);
      options.onPosition();
    },
    onCompare(positions, now) {
      clockOffsetMs = now - Date.now();
      for (const { wardId, position, epoch } of positions) {
        const ward = wards.get(wardId);
        if (ward !== undefined && isBehind(ward, position, epoch)) publish(ward, position);
      }
    },
    onLost(error) {
      // A board that hears nothing must not look fresh.
      for (const { streams } of wards.values()) streams.endAll();
      onTrouble(error);
    },
  });

  function wardOf(wardId: string): Ward {
    const known = wards.get(wardId);
    if (known !== undefined) return known;
    const board = new WardBoard({ siteId, wardId, pool, policies });
    const snapshot = createSnapshots(board, build);
    const ward = { board, streams: new Streams(), snapshot, isPublishing: false, wanted: 0 };
    wards.set(wardId, ward);
    return ward;
  }

  /** A board that nobody keeps fresh for us is read before it is shown. */
  async function fresh(wardId: string): Promise<Ward> {
    const ward = wardOf(wardId);
    if (!isKeptFresh(ward)) await publishNow(ward);
    return ward;
  }

  const isKeptFresh = ({ board }: Ward) => board.position !== null && listener.isListening();

  /** Brings a ward to a position at least; positions that arrive while it reads are taken together. */
  function publish(ward: Ward, position: number): void {
    ward.wanted = Math.max(ward.wanted, position);
    if (ward.isPublishing) return;
    ward.isPublishing = true;
    publishNow(ward)
      .catch(onTrouble)
      .finally(() => {
        ward.isPublishing = false;
        const { wanted } = ward;
        ward.wanted = 0;
        if (isBehind(ward, wanted, null)) publish(ward, wanted);
      });
  }

  async function publishNow(ward: Ward): Promise<void> {
    const epochBefore = ward.board.epoch;
    const delta = await ward.board.refresh();
    if (delta !== null) {
      for (const projection of PROJECTIONS) {
        ward.streams.send(projection, eventText('rows', delta.text[projection], delta.to));
      }
    } else if (epochBefore !== null && epochBefore !== ward.board.epoch) {
      // The database was restored: the beat says so, and every board starts afresh.
      beat(ward);
    }
  }

  function beatText({ board }: Ward): string {
    const data: Beat = {
      epoch: board.epoch!,
      position: board.position!,
      serverAt: Math.round(Date.now() + clockOffsetMs),
      build,
      alarmsThrough: alarmsThrough(),
    };
    return eventText('beat', JSON.stringify(data));
  }

  function beat(ward: Ward): void {
    if (ward.streams.size === 0 || ward.board.position === null) return;
    const text = beatText(ward);
    for (const projection of PROJECTIONS) ward.streams.send(projection, text);
  }

  function beatAll(): void {
    for (const ward of wards.values()) {
      ward.streams
        .check(null)
        .then(() => beat(ward))
        .catch(onTrouble);
    }
  }

  const endStreams = () => {
    for (const { streams } of wards.values()) streams.endAll();
  };

  return {
    async start() {
      await listener.start();
      beats = setInterval(beatAll, BEAT_EVERY_MS);
    },
    knownSnapshot(wardId, projection) {
      const ward = wards.get(wardId);
      return ward !== undefined && isKeptFresh(ward) ? ward.snapshot(projection) : null;
    },
    snapshot: async (wardId, projection) => (await fresh(wardId)).snapshot(projection),
    since: async (wardId, projection, position) => (await (await fresh(wardId)).board.since(position, projection)).text,
    async join({ wardId, projection, sink, accountId, mayStill, lastPosition }) {
      const ward = await fresh(wardId);
      const { board, streams } = ward;
      if (!listener.isListening()) {
        sink.end();
        return () => {};
      }
      let missed = lastPosition === null ? null : await board.since(lastPosition, projection);
      // What was published while we read went to the others: read once more, so that nothing is missed in between.
      while (missed !== null && missed.to !== board.position) missed = await board.since(lastPosition!, projection);
      const stream: Stream = { projection, sink, accountId, mayStill };
      streams.add(stream);
      if (missed !== null && missed.to !== lastPosition) {
        streams.sendTo(stream, eventText('rows', missed.text, missed.to));
      }
      streams.sendTo(stream, beatText(ward));
      return () => streams.remove(stream);
    },
    checkStreamsOf(accountId) {
      for (const { streams } of wards.values()) streams.check(accountId).catch(onTrouble);
    },
    endStreams,
    status: () => ({
      build,
      listening: listener.isListening(),
      streams: [...wards.values()].reduce((sum, { streams }) => sum + streams.size, 0),
      alarmsThrough: alarmsThrough(),
    }),
    async stop() {
      clearInterval(beats);
      endStreams();
      await listener.stop();
    },
  };
}

const isBehind = ({ board }: Ward, position: WardPosition['position'], epoch: string | null): boolean =>
  board.position !== null && (position > board.position || (epoch !== null && epoch !== board.epoch));
