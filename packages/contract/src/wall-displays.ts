import type { EpochMs } from '@slackwater/domain';
import { z } from 'zod';
import { instant, line, text, uuid } from './primitives.ts';

/** `POST /api/wards/:ward/wall-displays`: a device that shall hang on the ward's wall, by where it hangs. */
export const newWallDisplay = z.strictObject({ id: uuid, name: line(60) });
export type NewWallDisplay = z.infer<typeof newWallDisplay>;

/** `POST /api/wall-displays/open`: the code, as it was shown once; case, spaces and hyphens do not count. */
export const openWallDisplay = z.strictObject({ code: text(60) });
export type OpenWallDisplay = z.infer<typeof openWallDisplay>;

/** One device that may show the ward without names. */
export type WallDisplay = {
  id: string;
  name: string;
  /** Who made it; null for an account of a manager's that signs in with a password. */
  madeBy: string | null;
  madeAt: EpochMs;
  /** Until then its code may be used; null once it was, and where there is none. */
  codeEndsAt: EpochMs | null;
  /** When it was last looking; null before it ever was. */
  lastSeenAt: EpochMs | null;
  /** When its sign-in ends by itself; null while it has none. */
  endsAt: EpochMs | null;
  revokedAt: EpochMs | null;
};

const wallDisplay: z.ZodType<WallDisplay> = z
  .strictObject({
    id: uuid,
    name: z.string(),
    madeBy: z.string().nullable(),
    madeAt: instant,
    codeEndsAt: instant.nullable(),
    lastSeenAt: instant.nullable(),
    endsAt: instant.nullable(),
    revokedAt: instant.nullable(),
  })
  .meta({ id: 'WallDisplay' });

export type WallDisplaysView = { displays: readonly WallDisplay[] };

export const wallDisplaysView: z.ZodType<WallDisplaysView> = z.strictObject({ displays: z.array(wallDisplay) });

/** The code is in this answer and nowhere else. */
export type MadeWallDisplay = { id: string; code: string; codeEndsAt: EpochMs };

export const madeWallDisplay: z.ZodType<MadeWallDisplay> = z.strictObject({
  id: uuid,
  code: z.string(),
  codeEndsAt: instant,
});
