import type { ExpectedUfSettings } from '../cavity/expected-table.ts';
import type { ResponseTexts } from '../effluent/response-texts.ts';
import type { ClockTime } from '../prescription/prescription.ts';
import type { Solution } from '../solution/solution.ts';
import type { Supplies } from '../solution/supplies.ts';

/** Everything that a ward decides for itself. Defaults, ranges and sources stand in `ward/settings.ts`. */
export type WardPolicy = {
  /** Version of the settings; an alert says which it was raised under. */
  version: number;
  /** IANA zone: only the ward day and the shifts know it. */
  zone: string;
  /** First is also the start of the ward day. */
  shiftStarts: readonly ClockTime[];
  formulary: readonly Solution[];
  /** Products by their codes, and recalled lots: the hospital's, like the formulary. */
  supplies: Supplies;
  settings: WardSettings;
  /** What the ward words for itself of the responses to findings. */
  responses: ResponseTexts;
};

/** The ward's numbers; each name carries its unit. */
export type WardSettings = ExpectedUfSettings & {
  residualMl: number;
  flushMl: number;
  densityGPerMl: number;
  measuresApartMl: number;
  shortDrainBelowExpectedMl: number;
  shortDrainBelowFillPercent: number;
  slowDrainMinutes: number;
  verySlowDrainMinutes: number;
  slowFillMinutes: number;
  preparingMinutes: number;
  connectedMinutes: number;
  drainedMinutes: number;
  fillingMinutes: number;
  shortOftenOfFive: number;
  strongBagGlucoseGPerL: number;
  pressureOldMinutes: number;
  glucoseOldMinutes: number;
  glucoseBlockMinutes: number;
  icodextrinCautionDays: number;
  temperatureLowC: number;
  temperatureHighC: number;
  acuteReviewHours: number;
  holdReviewMostHours: number;
  prescriptionReviewMostDays: number;
  turnedOnSidePlace: number;
  satUpPlace: number;
  kinksAndClampsPlace: number;
  bagBelowAbdomenPlace: number;
  bowelsPlace: number;
  fibrinInLinePlace: number;
  closingMinutes: number;
  guardAskPercent: number;
  guardStopPercent: number;
  retainedCallMl: number;
  soonPercent: number;
  soonLeastMinutes: number;
  soonMostMinutes: number;
  overduePercent: number;
  overdueLeastMinutes: number;
  overdueMostMinutes: number;
  clockMinimumMinutes: number;
  clockFarHours: number;
  fillAfterDrainMinutes: number;
  drainsAtOnce: number;
  acknowledgeMostMinutes: number;
  escalateToChargeNurseMinutes: number;
  escalateToPhysicianMinutes: number;
  countersignHours: number;
  severePainFrom: number;
  newCatheterDays: number;
  sampleWithinMinutes: number;
  countWithinHours: number;
  beforeAdmissionHours: number;
  aheadOfClockMinutes: number;
  drainedMostMl: number;
  filledMostMl: number;
  flushMostMl: number;
  urineMostMl: number;
  grossMostG: number;
  tareMostG: number;
  dwellLeastMinutes: number;
  dwellMostMinutes: number;
  antibioticDwellMinutes: number;
  secondPersonMinutes: number;
};
