import type { Projection } from './projection.ts';

/** A stream with more than this unsent is destroyed: it will come again and ask for what it missed. */
export const MOST_UNSENT_BYTES = 256 * 1024;

/** Where a stream's events go: a response of `node:http`. */
export type Sink = {
  write(bytes: Buffer): boolean;
  end(): void;
  destroy(): void;
  readonly writableLength: number;
};

export type Stream = {
  projection: Projection;
  sink: Sink;
  accountId: string;
  /** Asked again at each beat, and when its account changed: whether the session behind it still may look. */
  mayStill: () => Promise<boolean>;
};

/** One event of a server-sent stream, as text. */
export function eventText(event: string, data: string, id?: number): string {
  return `${id === undefined ? '' : `id: ${id}\n`}event: ${event}\ndata: ${data}\n\n`;
}

/** The open streams of one ward. */
export class Streams {
  readonly #streams = new Set<Stream>();

  get size(): number {
    return this.#streams.size;
  }

  add(stream: Stream): void {
    this.#streams.add(stream);
  }

  remove(stream: Stream): void {
    this.#streams.delete(stream);
  }

  /** Writes the same text to all streams of a projection; it is made into bytes once. */
  send(projection: Projection, text: string): void {
    const bytes = Buffer.from(text);
    for (const stream of this.#streams) {
      if (stream.projection === projection) this.#write(stream, bytes);
    }
  }

  sendTo(stream: Stream, text: string): void {
    this.#write(stream, Buffer.from(text));
  }

  #write(stream: Stream, bytes: Buffer): void {
    if (stream.sink.writableLength > MOST_UNSENT_BYTES) {
      this.#streams.delete(stream);
      stream.sink.destroy();
      return;
    }
    stream.sink.write(bytes);
  }

  /** Ends the streams whose sessions may no longer look, of one account or of all; a check that fails is a no. */
  async check(accountId: string | null): Promise<void> {
    await Promise.all(
      [...this.#streams].map(async (stream) => {
        if (accountId !== null && stream.accountId !== accountId) return;
        if (await stream.mayStill().catch(() => false)) return;
        this.#streams.delete(stream);
        stream.sink.end();
      }),
    );
  }

  endAll(): void {
    for (const stream of this.#streams) stream.sink.end();
    this.#streams.clear();
  }
}
