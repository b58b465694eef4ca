import type { Pool, PoolClient } from 'pg';
import type { Hook } from '../alarms/hooks/hook.ts';
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

type RecordOptions = {
  pool: Pool;
  policies: Policies;
  /** Told of alerts that what is written raises or clears. */
  hooks?: readonly Hook[];
};

/** The record over a pool whose sessions are in UTC. */
export const createRecord = ({ pool, policies, hooks = [] }: RecordOptions): Recorder => ({
  append: (batch) => append(pool, policies, batch, hooks),
  changeIdentity: (change, alter) => changeIdentity(pool, policies, change, alter),
});
