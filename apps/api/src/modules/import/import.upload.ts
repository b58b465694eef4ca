import type { Readable } from 'node:stream';

export type UploadLimits = {
  mostBytes: number;
  /** A sheet that stops arriving for so long is given up: it holds a connection to the database. */
  longestPauseMs: number;
  tooLarge: () => Error;
  stalled: () => Error;
};

/** Passes an upload on as it arrives, as long as it keeps arriving and is not too large. */
export async function* upload(source: Readable, limits: UploadLimits): AsyncGenerator<Uint8Array> {
  const { mostBytes, longestPauseMs, tooLarge, stalled } = limits;
  // Only while the next bytes are awaited: the time that they take to be worked on does not count.
  const watch = () => setTimeout(() => source.destroy(stalled()), longestPauseMs);
  let bytes = 0;
  let timer = watch();
  try {
    // Left standing when the sheet is refused midway: destroying it would cut off the answer.
    for await (const chunk of source.iterator({ destroyOnReturn: false }) as AsyncIterable<Uint8Array>) {
      clearTimeout(timer);
      bytes += chunk.length;
      if (bytes > mostBytes) throw tooLarge();
      yield chunk;
      timer = watch();
    }
  } finally {
    clearTimeout(timer);
    // The rest is thrown away: unread, it would stand before the next request on this connection.
    source.resume();
  }
}
