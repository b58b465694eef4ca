import type { EpochMs, PatientIdentity, Role, WardPolicy } from '@slackwater/domain';
import { z } from 'zod';
import { clockTime, line, text, wardId } from './primitives.ts';

const MINUTES_A_DAY = 24 * 60;

/** From the first on, each later than the one before, and all within a day. */
function areInOrder(shiftStarts: readonly string[]): boolean {
  const minutes = shiftStarts.map((clock) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3)));
  const sinceFirst = minutes.map((minute) => (minute - minutes[0]! + MINUTES_A_DAY) % MINUTES_A_DAY);
  return sinceFirst.every((since, index) => index === 0 || since > sinceFirst[index - 1]!);
}

/** `POST /api/wards`: a new ward of the hospital; its settings begin with the defaults. */
export const newWard = z.strictObject({
  id: wardId,
  name: line(80),
  /** IANA name: only the ward day and the shifts know it. */
  zone: text(60),
  /** First is also the start of the ward day. */
  shiftStarts: z.array(clockTime).min(1).max(4).refine(areInOrder, 'different times in the order of the ward day'),
  beds: z
    .array(line(12))
    .min(1)
    .max(200)
    .refine((beds) => new Set(beds).size === beds.length, 'beds with a name of its own each'),
});
export type NewWard = z.infer<typeof newWard>;

/** `GET /api/wards/:ward` */
export type WardView = {
  id: string;
  name: string;
  hospital: string;
  zone: string;
  policy: WardPolicy;
  staff: readonly { accountId: string; name: string; role: Role }[];
  /** Set when every patient here is invented. */
  demonstration: { seededAt: EpochMs } | null;
};

/** What one version changed: the numbers or words of a setting before and after; null: the default words. */
export type SettingsChange = { key: string; from: number | string | null; to: number | string | null };

/** `GET /api/wards/:ward/settings`: every version after the first, newest first. */
export type SettingsHistory = {
  versions: readonly { version: number; at: EpochMs; by: string | null; changes: readonly SettingsChange[] }[];
  nextCursor: string | null;
};

/** `GET /api/wards/:ward/beds` */
export type BedsView = { beds: readonly { bed: string; patientId: string | null }[] };

/** `GET /api/wards/:ward/others`: where a patient of this ward may be transferred to, with the beds that are free there. */
export type OtherWardsView = { wards: readonly { id: string; name: string; freeBeds: readonly string[] }[] };

export const otherWardsView: z.ZodType<OtherWardsView> = z.strictObject({
  wards: z.array(z.strictObject({ id: wardId, name: z.string(), freeBeds: z.array(z.string()) })),
});

/** `GET /api/wards/:ward/patients?search=`: known to the hospital, on this ward, elsewhere, or at home. */
export type PatientsView = {
  patients: readonly { patient: PatientIdentity; wardId: string | null; bed: string | null }[];
};
