import { createReadStream } from 'node:fs';
import { createGunzip } from 'node:zlib';

/** Reads a backup front to back, in memory the size of a block. */
export type BackupReader = {
  /** The next JSON line. */
  line<T>(): Promise<T>;
  /** The next block; null at the end of a table. */
  block(): Promise<Buffer | null>;
  close(): void;
};

const NEWLINE = 0x0a;
/** No line and no block of ours is longer: what claims to be is no backup. */
const LONGEST = 256 * 1024 * 1024;

export function openBackup(file: string): BackupReader {
  const source = createReadStream(file);
  const gunzip = source.pipe(createGunzip());
  source.on('error', (error) => gunzip.destroy(error));
  const chunks = gunzip[Symbol.asyncIterator]() as AsyncIterator<Buffer>;
  let held: Buffer = Buffer.alloc(0);

  async function more(): Promise<void> {
    const { value, done } = await chunks.next().catch((error: NodeJS.ErrnoException) => {
      throw new Error(unreadable(file, error), { cause: error });
    });
    if (done) throw new Error(`The backup ${file} is cut short.`);
    held = held.length === 0 ? value : Buffer.concat([held, value]);
  }

  function take(length: number): Buffer {
    const bytes = held.subarray(0, length);
    held = held.subarray(length);
    return bytes;
  }

  return {
    async line<T>(): Promise<T> {
      for (;;) {
        const end = held.indexOf(NEWLINE);
        if (end >= 0) return JSON.parse(take(end + 1).toString('utf8')) as T;
        if (held.length > LONGEST) throw new Error(`${file} is no backup of this tool.`);
        await more();
      }
    },
    async block() {
      while (held.length < 4) await more();
      const length = take(4).readUInt32BE();
      if (length === 0) return null;
      if (length > LONGEST) throw new Error(`${file} is damaged: a block of ${length} bytes.`);
      while (held.length < length) await more();
      return take(length);
    },
    close: () => gunzip.destroy(),
  };
}

/** What the decompression, or the file itself, says no to. */
function unreadable(file: string, { code, message }: NodeJS.ErrnoException): string {
  if (code === 'Z_BUF_ERROR') return `The backup ${file} is cut short.`;
  return code?.startsWith('Z_') ? `The backup ${file} is damaged: ${message}.` : message;
}
