import { setTimeout } from 'node:timers/promises';
import type { BoardDelta, BoardSnapshot } from '@slackwater/contract';

type Row = BoardSnapshot['rows'][number];
type Board = { epoch: string; position: number; rows: Map<string, Row> };
type Event = { name: string; data: BoardDelta & { position: number } };

const RECONNECT_MS = 50;

export type Watcher = ReturnType<typeof watchBoard>;

/** A board as a browser keeps it: from the stream, with what was missed asked for, through every loss of connection. */
export function watchBoard(url: string, cookie: string) {
  const stopping = new AbortController();
  const disorder: string[] = [];
  let board: Board | null = null;
  let opened = 0;

  async function ask<T>(query: string): Promise<T | null> {
    const answer = await fetch(`${url}/api/wards/kestrel/board${query}`, { headers: { cookie } }).catch(() => null);
    return answer?.ok ? ((await answer.json().catch(() => null)) as T | null) : null;
  }

  const whole = async () => {
    const snapshot = await ask<BoardSnapshot>('');
    if (snapshot === null) return;
    const rows = new Map(snapshot.rows.map((row) => [row.patient.id, row]));
    board = { epoch: snapshot.epoch, position: snapshot.position, rows };
  };

  function apply(delta: BoardDelta): void {
    if (board === null || delta.epoch !== board.epoch || delta.to <= board.position) return;
    for (const row of delta.rows) board.rows.set(row.patient.id, row);
    for (const id of delta.gone) board.rows.delete(id);
    board.position = delta.to;
  }

  async function catchUp(epoch: string): Promise<void> {
    if (board === null || board.epoch !== epoch) return whole();
    const missed = await ask<BoardDelta | BoardSnapshot>(`?since=${board.position}`);
    if (missed === null) return;
    if ('from' in missed) apply(missed);
    else await whole();
  }

  async function follow(): Promise<void> {
    const headers = { cookie, accept: 'text/event-stream' };
    const answer = await fetch(`${url}/api/wards/kestrel/stream`, { headers, signal: stopping.signal });
    if (!answer.ok || answer.body === null) return;
    opened += 1;
    let sent: number | null = null;
    for await (const { name, data } of eventsOf(answer.body)) {
      if (name === 'rows') {
        if (data.from > data.to || (sent !== null && data.from !== sent)) {
          disorder.push(`after ${sent} came ${data.from} to ${data.to}`);
        }
        sent = data.to;
        if (board?.position === data.from && board.epoch === data.epoch) apply(data);
        else await catchUp(data.epoch);
      } else if (name === 'beat' && data.position !== board?.position) await catchUp(data.epoch);
    }
  }

  const following = (async () => {
    while (!stopping.signal.aborted) {
      await follow().catch(() => undefined);
      await setTimeout(RECONNECT_MS);
    }
  })();

  return {
    board: () => board,
    /** How often the stream was opened: the first time, and after each loss. */
    opened: () => opened,
    /** Where one stream was not in order, or left something out. */
    disorder: (): readonly string[] => disorder,
    async stop() {
      stopping.abort();
      await following;
    },
  };
}

async function* eventsOf(body: ReadableStream<Uint8Array>): AsyncGenerator<Event> {
  let text = '';
  const decoder = new TextDecoder();
  for await (const chunk of body) {
    text += decoder.decode(chunk, { stream: true });
    const blocks = text.split('\n\n');
    text = blocks.pop() ?? '';
    for (const block of blocks) {
      const field = (name: string) => new RegExp(`^${name}: ?(.*)$`, 'm').exec(block)?.[1];
      const data = field('data');
      if (data !== undefined) yield { name: field('event') ?? 'message', data: JSON.parse(data) };
    }
  }
}
