import type { EntryKind } from '../record/entry.ts';
import { additiveCheckAskedRule, additiveCheckedRule } from './judge-additives.ts';
import { alertRule } from './judge-alert.ts';
import { endDrainRule, startDrainRule } from './judge-drain.ts';
import { confirmedEmptyRule } from './judge-empty.ts';
import { startFillRule } from './judge-fill.ts';
import { calledFirstRule, glucoseRule } from './judge-first.ts';
import { appearanceRule, bagFateRule, comfortRule, drainObservationRule } from './judge-observation.ts';
import { countersignedRule, discontinuedRule, holdLiftedRule, orderEndedRule } from './judge-order.ts';
import { prepareRule } from './judge-prepare.ts';
import { admittedRule, leavingRule, returnedRule, stayRule } from './judge-stay.ts';
import { leftWardRule } from './judge-stay-empty.ts';
import { closeRule, resumeRule, stepRule, stopRule } from './judge-step.ts';
import { type Judge, nothing, refusal } from './judge-types.ts';
import { antibioticStartedRule, resultReportedRule, sampleTakenRule, workUpClosedRule } from './judge-work-up.ts';

const onlyTheTool = () => [refusal('tool-only', 'Only the tool itself writes this.', 'kind')];

/** The rules of every kind beside permission, time and typed ranges. A kind without its line does not compile. */
export const RULES: { readonly [K in EntryKind]: Judge<K> } = {
  prepare: prepareRule,
  connect: stepRule,
  startDrain: startDrainRule,
  endDrain: endDrainRule,
  startFill: startFillRule,
  endFill: stepRule,
  close: closeRule,
  stop: stopRule,
  resume: resumeRule,

  additiveCheckAsked: additiveCheckAskedRule,
  additiveChecked: additiveCheckedRule,

  appearance: appearanceRule,
  comfort: comfortRule,
  measure: drainObservationRule,
  flowMoves: drainObservationRule,
  flowEffect: drainObservationRule,
  bagFate: bagFateRule,
  told: nothing,
  cavityConfirmedEmpty: confirmedEmptyRule,
  calledFirst: calledFirstRule,
  caution: nothing,
  weight: nothing,
  bloodPressure: nothing,
  temperature: nothing,
  glucose: glucoseRule,
  bowels: nothing,
  otherFluid: nothing,
  exitSite: nothing,
  symptoms: nothing,

  workUpOpened: onlyTheTool,
  sampleTaken: sampleTakenRule,
  resultReported: resultReportedRule,
  antibioticStarted: antibioticStartedRule,
  workUpClosed: workUpClosedRule,

  admitted: admittedRule,
  transferredOut: leavingRule,
  transferredIn: stayRule,
  movedBed: stayRule,
  leftWard: leftWardRule,
  returned: returnedRule,
  discharged: leavingRule,
  assigned: stayRule,
  catheter: nothing,
  dialysisPeriod: nothing,

  prescribed: nothing,
  held: nothing,
  holdLifted: holdLiftedRule,
  discontinued: discontinuedRule,
  ordered: nothing,
  countersigned: countersignedRule,
  orderEnded: orderEndedRule,

  alertRaised: onlyTheTool,
  alertAcknowledged: alertRule,
  alertHandedOn: alertRule,
  alertSnoozed: alertRule,
  alertEscalated: onlyTheTool,
  alertCleared: alertRule,

  // Which entry they speak of, and whose it is, the server knows.
  corrected: nothing,
  retracted: nothing,
  identityChanged: onlyTheTool,
  erased: onlyTheTool,
  suppliesChanged: nothing,
  settingsChanged: nothing,
  imported: nothing,
};
