import type { Pool, PoolClient } from 'pg';
import { append } from './append.ts';
import type { AppendResult, Batch } from './batch.ts';
import { changeIdentity, type IdentityChange } from './identity.ts';
import type { Policies } from './policies.ts';

/** The only way in. */
export type Recorder = {
  /** Writes a batch whole or not at all; see `append.ts`. */
  append(batch: Batch): Promise<AppendResult>;
  /** Changes who a patient is, and says so on the ward's board; see `identity.ts`. */
  changeIdentity<T>(change: IdentityChange, alter: (client: PoolClient) => Promise<T>): Promise<T>;
};

/** The record over a pool whose sessions are in UTC. */
export const createRecord = ({ pool, policies }: { pool: Pool; policies: Policies }): Recorder => ({
  append: (batch) => append(pool, policies, batch),
  changeIdentity: (change, alter) => changeIdentity(pool, policies, change, alter),
});
