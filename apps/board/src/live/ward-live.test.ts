import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Message } from './line.ts';
import type { Delta, Snapshot } from './rows.ts';
import { createWardLive, type WardLive } from './ward-live.ts';

type Row = { id: string; version: number };

/** A ward as the server keeps it: every change takes the next position. */
const createServer = () => {
  let epoch = 'one';
  let log: Row[] = [];
  const rowsAt = (position: number) => [...new Map(log.slice(0, position).map((row) => [row.id, row])).values()];
  return {
    change: (id: string): Delta<Row> => {
      log.push({ id, version: log.length + 1 });
      return { epoch, from: log.length - 1, to: log.length, rows: log.slice(-1), gone: [] };
    },
    restore: () => {
      epoch += ', restored';
      log = log.slice(0, Math.floor(log.length / 2));
    },
    snapshot: (): Snapshot<Row> => ({ epoch, position: log.length, rows: rowsAt(log.length) }),
    since: (from: number): Delta<Row> => ({ epoch, from, to: log.length, rows: log.slice(from), gone: [] }),
    beat: (ageMs = 0): Message<Row> => ({
      type: 'beat',
      ageMs,
      beat: { epoch, position: log.length, serverAt: Date.now(), build: 'a', alarmsThrough: Date.now() },
    }),
    versions: () => Object.fromEntries(rowsAt(log.length).map(({ id, version }) => [id, version])),
  };
};

const open = (server: ReturnType<typeof createServer>) => {
  let hear: (message: Message<Row>) => void = () => {};
  const asked: string[] = [];
  const allNew = vi.fn();
  const ward = createWardLive<Row>({
    whole: async () => {
      asked.push('whole');
      return server.snapshot();
    },
    since: async (position) => {
      asked.push(`since ${position}`);
      return server.since(position);
    },
    idOf: (row) => row.id,
    line: (listener) => {
      hear = listener;
      return () => {};
    },
    now: Date.now,
    heardClock: () => {},
    changed: () => {},
    allNew,
  });
  const stop = ward.subscribe(() => {});
  return { ward, asked, allNew, stop, hear: (message: Message<Row>) => hear(message) };
};

const versions = (ward: WardLive<Row>) =>
  Object.fromEntries([...(ward.current().rows?.byId.values() ?? [])].map(({ id, version }) => [id, version]));
const settled = () => vi.advanceTimersByTimeAsync(0);

beforeEach(() => {
  vi.useFakeTimers({ now: Date.UTC(2026, 10, 25, 12) });
});
afterEach(() => {
  vi.useRealTimers();
});

describe('a ward followed live', () => {
  it('asks once for everything, then applies what fits without asking', async () => {
    const server = createServer();
    server.change('a');
    const { ward, asked, hear } = open(server);
    hear(server.beat());
    await settled();
    hear({ type: 'rows', delta: server.change('b') });
    expect(asked).toEqual(['whole']);
    expect(versions(ward)).toEqual({ a: 1, b: 2 });
  });

  it('asks for what it missed when a change begins later, or a beat is ahead', async () => {
    const server = createServer();
    const { ward, asked, hear } = open(server);
    hear(server.beat());
    await settled();
    server.change('a');
    hear({ type: 'rows', delta: server.change('b') });
    await settled();
    server.change('c');
    hear(server.beat());
    await settled();
    expect(asked).toEqual(['whole', 'since 0', 'since 2']);
    expect(versions(ward)).toEqual({ a: 1, b: 2, c: 3 });
  });

  it('says so when every row came anew, as after a change of the settings, and not when one did', async () => {
    const server = createServer();
    server.change('a');
    server.change('b');
    const { allNew, hear } = open(server);
    hear(server.beat());
    await settled();
    allNew.mockClear();
    hear({ type: 'rows', delta: server.change('a') });
    expect(allNew).not.toHaveBeenCalled();
    const { position: from } = server.snapshot();
    server.change('a');
    server.change('b');
    hear({ type: 'rows', delta: server.since(from) });
    expect(allNew).toHaveBeenCalledTimes(1);
  });

  it('takes everything anew from another epoch, even at a smaller position', async () => {
    const server = createServer();
    for (const id of ['a', 'b', 'c', 'd']) server.change(id);
    const { ward, hear } = open(server);
    hear(server.beat());
    await settled();
    server.restore();
    hear(server.beat());
    await settled();
    expect(versions(ward)).toEqual({ a: 1, b: 2 });
  });

  it('is stale 30 s after it last heard anything, and live with the next sound', async () => {
    const server = createServer();
    const { ward, hear } = open(server);
    hear(server.beat());
    await vi.advanceTimersByTimeAsync(29_999);
    expect(ward.current().connection.state).toBe('live');
    await vi.advanceTimersByTimeAsync(1);
    expect(ward.current().connection.state).toBe('stale');
    hear(server.beat());
    expect(ward.current().connection.state).toBe('live');
  });

  it('counts a beat that another tab passes on as old as it is', async () => {
    const server = createServer();
    const { ward, hear } = open(server);
    hear(server.beat(14_000));
    await vi.advanceTimersByTimeAsync(16_000);
    expect(ward.current().connection.state).toBe('stale');
  });

  it('shows rows of an earlier visit as old as they are', async () => {
    const server = createServer();
    const { ward, hear, stop } = open(server);
    hear(server.beat());
    await settled();
    stop();
    await vi.advanceTimersByTimeAsync(60_000);
    ward.subscribe(() => {});
    expect(ward.current().connection.state).toBe('stale');
  });

  it('does not render for a beat that says nothing new', async () => {
    const server = createServer();
    const { ward, hear } = open(server);
    hear(server.beat());
    await settled();
    const before = ward.current();
    hear(server.beat());
    await settled();
    expect(ward.current()).toBe(before);
  });

  it('ends at the server’s rows whatever is lost, doubled or late, once one beat comes through', async () => {
    const happening = fc.oneof(
      fc.record({ what: fc.constant('change' as const), id: fc.constantFrom('a', 'b', 'c'), arrives: fc.boolean() }),
      fc.record({ what: fc.constantFrom('beat' as const, 'lost' as const, 'restore' as const, 'again' as const) }),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(happening, { maxLength: 40 }), async (happenings) => {
        const server = createServer();
        const { ward, hear, stop } = open(server);
        let last: Delta<Row> | null = null;
        for (const one of happenings) {
          if (one.what === 'change') {
            last = server.change(one.id);
            if (one.arrives) hear({ type: 'rows', delta: last });
          } else if (one.what === 'beat') hear(server.beat());
          else if (one.what === 'lost') hear({ type: 'lost' });
          else if (one.what === 'restore') server.restore();
          else if (last) hear({ type: 'rows', delta: last });
          await settled();
        }
        hear(server.beat());
        await settled();
        stop();
        expect(versions(ward)).toEqual(server.versions());
      }),
    );
  });
});
