import type { Pool } from 'pg';
import { append } from './append.ts';
import type { AppendResult, Batch } from './batch.ts';
import type { Policies } from './policies.ts';

/** The only way in. */
export type Recorder = {
  /** Writes a batch whole or not at all; see `append.ts`. */
  append(batch: Batch): Promise<AppendResult>;
};

/** The record over a pool whose sessions are in UTC. */
export const createRecord = ({ pool, policies }: { pool: Pool; policies: Policies }): Recorder => ({
  append: (batch) => append(pool, policies, batch),
});
