import type { EntryKind } from '../record/entry.ts';
import type { Permission, Role } from './roles.ts';

const NOBODY: Record<Permission, boolean> = {
  readWall: false,
  readBoard: false,
  readPatient: false,
  recordExchange: false,
  checkAdditives: false,
  recordObservation: false,
  correctOwn: false,
  correctAny: false,
  ownAlerts: false,
  confirmEmpty: false,
  concludeWorkUp: false,
  telephoneOrder: false,
  overrideGuard: false,
  admitAndMove: false,
  assign: false,
  prescribe: false,
  releaseOutbox: false,
  keepSupplies: false,
  keepWalls: false,
  changeSettings: false,
  manageAccounts: false,
  importExport: false,
  readAudit: false,
};

const READER = { ...NOBODY, readWall: true, readBoard: true, readPatient: true };

const NURSE = {
  ...READER,
  recordExchange: true,
  checkAdditives: true,
  recordObservation: true,
  correctOwn: true,
  ownAlerts: true,
  confirmEmpty: true,
  telephoneOrder: true,
};

/** Who may do what: the one table that server and screens ask. The manager makes no clinical entry. */
export const PERMISSIONS: Record<Role, Record<Permission, boolean>> = {
  nurse: NURSE,
  chargeNurse: {
    ...NURSE,
    correctAny: true,
    admitAndMove: true,
    assign: true,
    overrideGuard: true,
    // In the physician's words: the reason says whose.
    concludeWorkUp: true,
    releaseOutbox: true,
    keepSupplies: true,
    keepWalls: true,
  },
  nephrologist: {
    ...READER,
    checkAdditives: true,
    // Results come as observations, and a high alert that nobody has goes up to the physician, who must be able to own it.
    recordObservation: true,
    ownAlerts: true,
    correctOwn: true,
    correctAny: true,
    overrideGuard: true,
    prescribe: true,
    concludeWorkUp: true,
  },
  manager: {
    ...READER,
    keepSupplies: true,
    keepWalls: true,
    changeSettings: true,
    manageAccounts: true,
    importExport: true,
    readAudit: true,
  },
  wall: { ...NOBODY, readWall: true },
};

/** Whether a role holds a permission. */
export const may = (role: Role, permission: Permission): boolean => PERMISSIONS[role][permission];

const PERMISSION_FOR: Record<EntryKind, Permission | null> = {
  prepare: 'recordExchange',
  connect: 'recordExchange',
  startDrain: 'recordExchange',
  endDrain: 'recordExchange',
  startFill: 'recordExchange',
  endFill: 'recordExchange',
  close: 'recordExchange',
  stop: 'recordExchange',
  resume: 'recordExchange',
  additiveCheckAsked: 'recordExchange',
  additiveChecked: 'checkAdditives',
  appearance: 'recordExchange',
  comfort: 'recordExchange',
  measure: 'recordExchange',
  flowMoves: 'recordExchange',
  flowEffect: 'recordExchange',
  bagFate: 'recordExchange',
  told: 'recordObservation',
  cavityConfirmedEmpty: 'confirmEmpty',
  calledFirst: 'recordExchange',
  caution: 'recordObservation',
  weight: 'recordObservation',
  bloodPressure: 'recordObservation',
  temperature: 'recordObservation',
  glucose: 'recordObservation',
  bowels: 'recordObservation',
  otherFluid: 'recordObservation',
  exitSite: 'recordObservation',
  symptoms: 'recordObservation',
  workUpOpened: null,
  sampleTaken: 'recordObservation',
  resultReported: 'recordObservation',
  antibioticStarted: 'recordObservation',
  workUpClosed: 'concludeWorkUp',
  admitted: 'admitAndMove',
  transferredOut: 'admitAndMove',
  transferredIn: 'admitAndMove',
  movedBed: 'admitAndMove',
  leftWard: 'recordObservation',
  returned: 'recordObservation',
  discharged: 'admitAndMove',
  assigned: 'assign',
  catheter: 'recordObservation',
  dialysisPeriod: 'recordObservation',
  prescribed: 'prescribe',
  held: 'prescribe',
  holdLifted: 'prescribe',
  discontinued: 'prescribe',
  ordered: 'prescribe',
  countersigned: 'prescribe',
  orderEnded: 'recordExchange',
  alertRaised: null,
  alertAcknowledged: 'ownAlerts',
  alertHandedOn: 'ownAlerts',
  alertSnoozed: 'ownAlerts',
  alertEscalated: null,
  alertCleared: 'ownAlerts',
  corrected: 'correctOwn',
  retracted: 'correctOwn',
  identityChanged: null,
  erased: null,
  suppliesChanged: 'keepSupplies',
  settingsChanged: 'changeSettings',
  imported: 'importExport',
};

/**
 * The permission that writing a kind of entry takes; null = only the tool itself writes it. Some depend on more
 * than the kind: an order by telephone takes `telephoneOrder` instead, a correction of another's entry `correctAny`,
 * going on against a stop `overrideGuard`.
 */
export const permissionFor = (kind: EntryKind): Permission | null => PERMISSION_FOR[kind];

/** Whether a role may write an entry: `permissionFor`, orders by telephone, and going on against a stop. Whose entry is corrected is not told here. */
export function mayWrite(role: Role, kind: EntryKind, payload: Readonly<Record<string, unknown>>): boolean {
  const permission = permissionFor(kind);
  if (permission === null) return false;
  if (kind === 'ordered' && payload.telephone != null && may(role, 'telephoneOrder')) return true;
  // A physician ends an order that a physician gave.
  if (kind === 'orderEnded' && may(role, 'prescribe')) return true;
  // Going on against a stop is one act of whoever has the right; the steps around it stay the nurse's.
  if (goesOn(kind, payload) && may(role, 'overrideGuard')) return true;
  return may(role, permission);
}

/** Where a kind of entry says that somebody goes on against a stop. */
const GOES_ON: Partial<Record<EntryKind, readonly string[]>> = {
  prepare: ['override', 'despiteOrder'],
  startFill: ['guardOverride', 'bagOverride', 'despiteOrder'],
};

const goesOn = (kind: EntryKind, payload: Readonly<Record<string, unknown>>): boolean =>
  kind === 'calledFirst' ? payload.by === 'override' : (GOES_ON[kind] ?? []).some((field) => payload[field] != null);
