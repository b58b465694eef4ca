import type { EpochMs } from '../time/instant.ts';
import type { Additive } from './additive.ts';

/** A wall-clock time of the ward, `HH:MM` in 24 hours. */
export type ClockTime = string;

export type DwellRule =
  | { by: 'length'; dwellMinutes: number }
  /** Fill at this clock time; the dwell lasts until the next item's clock time. */
  | { by: 'clock'; at: ClockTime }
  | { by: 'cycle'; fillMinutes: number; dwellMinutes: number; drainMinutes: number };

/** One line of the prescribed day. */
export type PrescriptionItem = {
  id: string;
  solutionId: string;
  /** 1 to 5,000 mL. */
  fillMl: number;
  /** What goes into this bag; [] = nothing. */
  additives: readonly Additive[];
  dwell: DwellRule;
  /** The drain may be moved by this many minutes either way to avoid a clash. */
  windowMinutes: number;
  /** Text for a choice the physician leaves to the bedside: "over 72 kg → 2.5 %". */
  condition: string | null;
};

/** Limits that the physician sets for this patient; null = none set. */
export type PatientLimits = {
  mostInsideMl: number | null;
  weightTargetKg: number | null;
  weightTargetCavity: 'full' | 'empty' | null;
  systolicLowMmHg: number | null;
  systolicHighMmHg: number | null;
  overRemovalMl: number | null;
  overRemovalHours: number | null;
};

export type PrescriptionRevision = {
  /** The id of the entry that wrote it. */
  id: string;
  number: number;
  items: readonly PrescriptionItem[];
  limits: PatientLimits;
  acute: boolean;
  note: string | null;
  reviewBy: EpochMs | null;
  prescribedAt: EpochMs;
  prescribedBy: string | null;
};

/** Where a patient goes while the cavity stays empty: theatre, imaging. */
export type Away = { where: string; why: string; leavesAt: EpochMs; backAt: EpochMs };

/** A one-off instruction beside the prescription. */
export type OrderContent =
  | { what: 'drainAndStayEmpty'; drainBy: EpochMs; emptyUntil: EpochMs; away?: Away | undefined }
  | { what: 'rinse'; solutionId: string; volumeMl: number; rinses: number }
  | { what: 'sample'; dwellMinutes: number; sample: string }
  | { what: 'partialDrain'; volumeMl: number }
  | {
      what: 'oneExchange';
      solutionId: string;
      fillMl: number;
      dwellMinutes: number | null;
      additives: readonly Additive[];
    }
  | { what: 'drainNow' }
  /** A new due time for the dwell inside; earlier shortens, later extends. */
  | { what: 'dueAt'; dueAt: EpochMs };

/** A telephone order: who gave it, and that it was read back. */
export type Telephone = { physician: string; readBack: true };

export type Order = {
  /** The id of the entry that gave it. */
  id: string;
  content: OrderContent;
  note: string | null;
  givenAt: EpochMs;
  givenBy: string | null;
  telephone: Telephone | null;
  countersignBy: EpochMs | null;
  countersignedBy: string | null;
  /** Set once it was carried out or withdrawn. */
  endedAt: EpochMs | null;
};

export type Hold = { since: EpochMs; reason: string; reviewBy: EpochMs };
