import type { Entry, EntryKind } from '../record/entry.ts';

/** Observations about a visit, or about one drain of it: they count there, whenever they are written. */
export type VisitObservation = 'appearance' | 'comfort' | 'measure' | 'flowMoves' | 'flowEffect' | 'bagFate';

const VISIT_OBSERVATIONS: ReadonlySet<EntryKind> = new Set<VisitObservation>([
  'appearance',
  'comfort',
  'measure',
  'flowMoves',
  'flowEffect',
  'bagFate',
]);

/** Kinds whose place among the others does not matter: the state takes the newest by its own time, a sum, or nothing. */
const FREE: ReadonlySet<EntryKind> = new Set<EntryKind>([
  'told',
  'calledFirst',
  'caution',
  'weight',
  'bloodPressure',
  'temperature',
  'glucose',
  'bowels',
  'otherFluid',
  'exitSite',
  'symptoms',
  'workUpOpened',
  'sampleTaken',
  'resultReported',
  'antibioticStarted',
  'workUpClosed',
  'dialysisPeriod',
  'identityChanged',
  'erased',
  'suppliesChanged',
  'settingsChanged',
]);

const ALERTS: ReadonlySet<EntryKind> = new Set<EntryKind>([
  'alertRaised',
  'alertAcknowledged',
  'alertHandedOn',
  'alertSnoozed',
  'alertEscalated',
  'alertCleared',
]);

/** The alerts' entries have an order among themselves, and none beside the others. */
export const isAboutAlert = (entry: Entry): boolean => ALERTS.has(entry.kind);

export const isVisitObservation = (entry: Entry): entry is Entry<VisitObservation> =>
  VISIT_OBSERVATIONS.has(entry.kind);

export const isFree = (entry: Entry): boolean => FREE.has(entry.kind);
