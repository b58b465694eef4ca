import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import type { Projection } from './projection.ts';
import type { WardBoard } from './ward-board.ts';

export type Encoding = 'identity' | 'gzip' | 'br';

/** The whole board at one position, in the bytes that are sent. */
export type Snapshot = {
  position: number;
  /** For `ETag` and `If-None-Match`. */
  etag: string;
  body(encoding: Encoding): Promise<Buffer>;
  /** The body where it was made before. */
  madeBody(encoding: Encoding): Buffer | null;
};

const compressGzip = promisify(gzip);
const compressBrotli = promisify(brotliCompress);

/** Made once a position and projection, whoever asks; compressed when first asked for so. */
export function createSnapshots(board: WardBoard, build: string): (projection: Projection) => Snapshot {
  const newest = new Map<Projection, Snapshot>();
  return (projection) => {
    const etag = `W/"${board.epoch}.${board.position}.${projection}.${build}"`;
    const known = newest.get(projection);
    if (known?.etag === etag) return known;
    const snapshot = snapshotOf(Buffer.from(board.snapshotText(projection), 'utf8'), board.position!, etag);
    newest.set(projection, snapshot);
    return snapshot;
  };
}

function snapshotOf(plain: Buffer, position: number, etag: string): Snapshot {
  const bodies = new Map<Encoding, Promise<Buffer>>([['identity', Promise.resolve(plain)]]);
  const made = new Map<Encoding, Buffer>([['identity', plain]]);
  return {
    position,
    etag,
    body(encoding) {
      const known = bodies.get(encoding);
      if (known !== undefined) return known;
      const body = compressed(plain, encoding).then((bytes) => {
        made.set(encoding, bytes);
        return bytes;
      });
      bodies.set(encoding, body);
      return body;
    },
    madeBody: (encoding) => made.get(encoding) ?? null,
  };
}

function compressed(plain: Buffer, encoding: Encoding): Promise<Buffer> {
  if (encoding === 'gzip') return compressGzip(plain);
  // Quality 5 of 11: a few milliseconds for 200 rows, once a position.
  return compressBrotli(plain, { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } });
}
