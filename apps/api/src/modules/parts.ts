import type { Pool } from 'pg';
import type { PrismaClient } from '../../../../prisma/generated/client.ts';
import type { Access } from '../access/access.ts';
import type { Hooks } from '../alarms/hooks/hook.ts';
import type { Live } from '../live/live.ts';
import type { Policies } from '../record/policies.ts';
import type { Recorder } from '../record/record.ts';

/** What the modules are put together from; made once, in `app.ts`. */
export type Parts = {
  pool: Pool;
  prisma: PrismaClient;
  access: Access;
  policies: Policies;
  record: Recorder;
  live: Live;
  /** Paging systems that are told of alerts. */
  hooks: Hooks;
  /** Browsers reach this server over https; false only on loopback. */
  https: boolean;
  /** Where the board was built to; null: the API alone. */
  boardFolder: string | null;
};
