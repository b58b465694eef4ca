import type { EpochMs } from '@slackwater/domain';

/** `GET /api/health` for everybody: the process answers. */
export type Live = { status: 'live' };

/** `GET /api/health` for the signed in: what stands behind it. */
export type Ready = {
  status: 'ready' | 'notReady';
  build: string;
  node: string;
  postgres: string | null;
  /** Name of the newest migration applied, and how many wait. */
  migrations: { applied: string | null; waiting: number } | null;
  /** Version of the time zone data that ward days are told by. */
  timeZoneData: string;
  epoch: string | null;
  alarmsThrough: EpochMs | null;
  serverAt: EpochMs;
};
