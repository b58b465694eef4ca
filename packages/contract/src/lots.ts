import type { EpochMs, PatientIdentity } from '@slackwater/domain';
import { z } from 'zod';
import { at, id, idOrNull } from './answers/cavity.ts';
import { patientIdentity } from './patients.ts';

/** One bag of the lot in one visit. */
export type LotUse = {
  patient: PatientIdentity;
  /** Where it was used. */
  wardId: string;
  /** Where the patient lies now; null: on no ward. */
  nowWardId: string | null;
  nowBed: string | null;
  at: EpochMs;
  /** false: it was checked for the visit, and no fill from it was recorded. */
  filled: boolean;
  solutionId: string;
  labelledMl: number;
  expiresOn: string | null;
  /** As it was read. */
  lot: string;
};

/** `GET /api/wards/:ward/lots?lot=` */
export type LotView = {
  /** Newest first. */
  uses: readonly LotUse[];
  /** There are more than are shown. */
  more: boolean;
  /** Fills of the last `unreadDays` days on these wards whose lot nobody read: any of them may be of this lot. */
  unreadFills: number;
  unreadDays: number;
};

export const lotView: z.ZodType<LotView> = z
  .strictObject({
    uses: z.array(
      z.strictObject({
        patient: patientIdentity,
        wardId: id,
        nowWardId: idOrNull,
        nowBed: z.string().nullable(),
        at,
        filled: z.boolean(),
        solutionId: z.string(),
        labelledMl: z.int(),
        expiresOn: z.string().nullable(),
        lot: z.string(),
      }),
    ),
    more: z.boolean(),
    unreadFills: z.int(),
    unreadDays: z.int(),
  })
  .meta({ id: 'LotView' });
