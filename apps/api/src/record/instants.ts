import type { EpochMs } from '@slackwater/domain';

/** An instant as Postgres reads it, in UTC. */
export const iso = (at: EpochMs): string => new Date(at).toISOString();

/** The same where there may be none. */
export const isoOrNull = (at: EpochMs | null): string | null => (at === null ? null : iso(at));

/** SQL that answers an instant column as epoch milliseconds. */
export const epochMs = (column: string): string => `(extract(epoch FROM ${column}) * 1000)::float8`;

/** SQL for the database's clock in whole epoch milliseconds: what it gives is recorded, and a record keeps no fractions. */
export const NOW_MS = 'floor(extract(epoch FROM clock_timestamp()) * 1000)::float8';
