import type { EntryKind } from '../record/entry.ts';
import { type Apply, unchanged } from './apply.ts';
import { applyAdditiveCheckAsked, applyAdditiveChecked } from './apply-additive-check.ts';
import { applyAlertCleared, applyAlertRaised, applyToAlert } from './apply-alerts.ts';
import {
  applyAppearance,
  applyBagFate,
  applyComfort,
  applyEndDrain,
  applyFlowEffect,
  applyFlowMoves,
  applyMeasure,
  applyStartDrain,
} from './apply-drain.ts';
import { applyEndFill, applyStartFill } from './apply-fill.ts';
import { applyExitSite, applySymptoms, applyTold } from './apply-findings.ts';
import { applyImported } from './apply-imported.ts';
import {
  applyBloodPressure,
  applyCalledFirst,
  applyCatheter,
  applyCaution,
  applyConfirmedEmpty,
  applyGlucose,
  applyOtherFluid,
  applyTemperature,
  applyWeight,
} from './apply-observations.ts';
import { applyCountersigned, applyOrderEnded, applyOrdered } from './apply-orders.ts';
import { applyDiscontinued, applyHeld, applyHoldLifted, applyPrescribed } from './apply-prescription.ts';
import {
  applyAdmitted,
  applyAssigned,
  applyDischarged,
  applyLeftWard,
  applyMovedBed,
  applyReturned,
  applyTransferredIn,
  applyTransferredOut,
} from './apply-stay.ts';
import { applyClose, applyConnect, applyPrepare, applyResume, applyStop } from './apply-visit.ts';
import {
  applyAntibioticStarted,
  applyResultReported,
  applySampleTaken,
  applyWorkUpClosed,
  applyWorkUpOpened,
} from './apply-work-up.ts';

/** What every kind of entry makes of the state. A kind without its line does not compile. */
export const APPLY: { readonly [K in EntryKind]: Apply<K> } = {
  prepare: applyPrepare,
  connect: applyConnect,
  startDrain: applyStartDrain,
  endDrain: applyEndDrain,
  startFill: applyStartFill,
  endFill: applyEndFill,
  close: applyClose,
  stop: applyStop,
  resume: applyResume,

  additiveCheckAsked: applyAdditiveCheckAsked,
  additiveChecked: applyAdditiveChecked,

  appearance: applyAppearance,
  comfort: applyComfort,
  measure: applyMeasure,
  flowMoves: applyFlowMoves,
  flowEffect: applyFlowEffect,
  bagFate: applyBagFate,
  told: applyTold,
  symptoms: applySymptoms,
  cavityConfirmedEmpty: applyConfirmedEmpty,
  calledFirst: applyCalledFirst,
  caution: applyCaution,
  weight: applyWeight,
  bloodPressure: applyBloodPressure,
  temperature: applyTemperature,
  glucose: applyGlucose,
  bowels: unchanged,
  otherFluid: applyOtherFluid,
  exitSite: applyExitSite,

  workUpOpened: applyWorkUpOpened,
  sampleTaken: applySampleTaken,
  resultReported: applyResultReported,
  antibioticStarted: applyAntibioticStarted,
  workUpClosed: applyWorkUpClosed,

  admitted: applyAdmitted,
  transferredOut: applyTransferredOut,
  transferredIn: applyTransferredIn,
  movedBed: applyMovedBed,
  leftWard: applyLeftWard,
  returned: applyReturned,
  discharged: applyDischarged,
  assigned: applyAssigned,
  catheter: applyCatheter,
  dialysisPeriod: unchanged,

  prescribed: applyPrescribed,
  held: applyHeld,
  holdLifted: applyHoldLifted,
  discontinued: applyDiscontinued,
  ordered: applyOrdered,
  countersigned: applyCountersigned,
  orderEnded: applyOrderEnded,

  alertRaised: applyAlertRaised,
  alertAcknowledged: applyToAlert,
  alertHandedOn: applyToAlert,
  alertSnoozed: applyToAlert,
  alertEscalated: applyToAlert,
  alertCleared: applyAlertCleared,

  // Resolved before the fold: `record/canonical.ts`.
  corrected: unchanged,
  retracted: unchanged,

  // Names stand outside the record; what was erased can no longer be folded.
  identityChanged: unchanged,
  erased: unchanged,

  // A ward's, not a patient's: the policy is an argument of the fold.
  suppliesChanged: unchanged,
  settingsChanged: unchanged,

  imported: applyImported,
};
