import type { OpenAlert } from '../alert/alert.ts';
import type { Balance, BedsideState, Due, Visit } from '../bedside/state.ts';
import type { Cavity, ProbablyInside } from '../cavity/cavity.ts';
import type { Dwell } from '../dwell/dwell.ts';
import type { WorkUpStanding } from '../peritonitis/work-up-standing.ts';
import type { Hold } from '../prescription/prescription.ts';
import type { StayEmpty } from '../prescription/stay-empty.ts';
import type { EpochMs } from '../time/instant.ts';
import type { DrainWindow } from './drain-window.ts';

/** Who the patient is, on every screen. */
export type PatientIdentity = {
  id: string;
  family: string;
  given: string;
  /** `YYYY-MM-DD` */
  dateOfBirth: string;
  gender: string;
  hospitalNumber: string;
  allergy: string | null;
  isolation: string | null;
  cautions: readonly string[];
};

/** A stretch of the ribbon: what was or will be inside, from instants and mL alone. */
export type RibbonPiece = {
  from: EpochMs;
  to: EpochMs | null;
  as: 'dwelling' | 'draining' | 'filling' | 'empty' | 'unknown';
  /** mL at `from` and at `to`; null = not known. */
  fromMl: number | null;
  toMl: number | null;
};

/** What stands on a bag, as far as the board says it. */
export type BagShown = { strength: string; fillMl: number };

/** The next bag, and why it may be another one: then somebody decides at the bed. */
export type NextBagShown = BagShown & {
  solution: string;
  doubts: readonly (
    | { why: 'condition'; condition: string }
    | { why: 'whichItem' | 'severalOrders'; others: readonly BagShown[] }
  )[];
};

/**
 * One row of the unit board. It does not depend on now: instants only. The browser derives minutes, groups and
 * urgency from it with `rowAt`.
 */
export type BoardRow = {
  patient: PatientIdentity;
  bed: string;
  /** Position of the newest entry in it. */
  version: number;
  /** Beds whose patients have a like name. */
  likeNameBeds: readonly string[];
  cavity: Cavity;
  inside: ProbablyInside;
  /** What is inside in words: volume, strength, since. */
  insideStrength: string | null;
  visit: Pick<Visit, 'id' | 'state' | 'since' | 'startedAt' | 'startedBy' | 'purpose'> | null;
  /** When the visit's state is past its expected time. */
  standingAt: EpochMs | null;
  /** Something was added to the fluid inside. */
  hasAdditives: boolean;
  /** Since when the visit waits for a second person's check of its bag; null = it does not. */
  waitsForSecondPersonSince: EpochMs | null;
  due: Due | null;
  /** Later drains of the day as the prescription has them, at most eight hours beyond `due`. */
  laterDrainsAt: readonly EpochMs[];
  /** Where the drain that is due may be moved to; null = it may not. */
  drainWindow: DrainWindow | null;
  /** For hourly prescriptions: which cycle of how long. */
  cycle: { number: number; minutes: number } | null;
  next: NextBagShown | null;
  /** An order to be drained by a time and stay empty, as for theatre or imaging. */
  stayEmpty: StayEmpty | null;
  hold: Hold | null;
  /** Who was told of the fluid inside when the patient was transferred here with it; null once it is drained. */
  fluidHandover: { at: EpochMs; toWhom: string } | null;
  offWard: { since: EpochMs; where: string; backAbout: EpochMs | null } | null;
  lastDwell: Pick<Dwell, 'drainedAt' | 'drainMinusFillMl' | 'complete'> | null;
  day: Balance;
  shift: Balance;
  alerts: readonly OpenAlert[];
  nurse: BedsideState['assignment'];
  /** The suspected peritonitis that is open, and what it waits for. */
  workUp: { openedAt: EpochMs; metCount: number; awaiting: WorkUpStanding['awaiting'] } | null;
  ribbon: readonly RibbonPiece[];
};

/** The same without names, for the wall. */
export type WallRow = Omit<BoardRow, 'patient' | 'likeNameBeds'> & { initials: string };

export type Group = 'now' | 'withinTheHour' | 'later' | 'empty';

/** What a row is at an instant; cheap enough for 200 rows a tick. */
export type RowAt = {
  group: Group;
  /** Sorts the board: smaller is more urgent. */
  urgency: number;
  /** Minutes that the large numerals show; always positive, the word says of what. null = none. */
  minutes: number | null;
  word:
    | 'overdue'
    | 'pastDue'
    | 'due'
    | 'drainAt'
    | 'fillAt'
    | 'reviewAt'
    | 'preparing'
    | 'connected'
    | 'draining'
    | 'drained'
    | 'filling'
    | 'closing'
    | 'empty'
    | 'onHold'
    | 'unknown';
  /** The clock instant that stands beside the numerals. */
  at: EpochMs | null;
};
