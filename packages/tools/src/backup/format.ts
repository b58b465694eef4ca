/**
 * The backup file: gzip over lines and blocks.
 *   one JSON line: the head
 *   for each table: one JSON line (its head), blocks of COPY text (each a 4-byte big-endian length and the bytes, a
 *   length of 0 ends them), one JSON line (its tail with row count and sha256)
 *   one JSON line: the end, so that a file cut short is known
 */
export const FORMAT = 'slackwater-backup';
export const FORMAT_VERSION = 1;

export type Head = {
  format: typeof FORMAT;
  version: number;
  takenAt: string;
  /** The migrations that the tables stand at. */
  migrations: readonly { name: string; checksum: string }[];
};
export type TableHead = { table: string; columns: readonly string[] };
export type TableTail = { rows: number; sha256: string };
export type End = { end: true; tables: number };

/** Where the migrations are kept is no part of what is backed up: a restore migrates by itself. */
export const NOT_BACKED_UP = ['_prisma_migrations'] as const;
