import type { OpenAlert } from '../alert/alert.ts';
import type { StandingCaution } from '../caution/caution.ts';
import type { Cavity, Reckoning } from '../cavity/cavity.ts';
import type { FluidHandedOver } from '../cavity/fluid-said.ts';
import type { DrainOut, Dwell } from '../dwell/dwell.ts';
import type { Comfort, FlowMove } from '../effluent/effluent.ts';
import type { AdditiveCheck } from '../exchange/additive-check.ts';
import type { VisitState } from '../exchange/steps.ts';
import type { SaidComfort, WorkUp } from '../peritonitis/work-up.ts';
import type { Hold, Order, PrescriptionRevision } from '../prescription/prescription.ts';
import type { Payloads } from '../record/entry.ts';
import type { BagInHand } from '../solution/solution.ts';
import type { EpochMs } from '../time/instant.ts';

/** One visit to the bed. */
export type Visit = {
  id: string;
  state: Exclude<VisitState, 'none'>;
  /** When it came into `state`. */
  since: EpochMs;
  startedAt: EpochMs;
  startedBy: string | null;
  purpose: Payloads['prepare']['purpose'];
  bag: BagInHand | null;
  revisionId: string | null;
  itemId: string | null;
  orderId: string | null;
  drains: readonly DrainOut[];
  /** The fill under way; null when none runs. */
  fill: (Payloads['startFill'] & { startedAt: EpochMs; entryId: string }) | null;
  comfort: Comfort | null;
  flowMoves: readonly FlowMove[];
  /** What the moves did, one word a drain and move. */
  flowEffects: readonly Payloads['flowEffect'][];
  closedAt: EpochMs | null;
  stopped: Payloads['stop'] | null;
  bagFates: readonly Payloads['bagFate'][];
  /** The order to stay empty against which somebody with the right goes on in this visit; null = none. */
  despiteOrderId: string | null;
  /** The check of a coming fill with something added; null while none was asked for. */
  additiveCheck: AdditiveCheck | null;
};

/** What one drained dwell took off, for sums over the last hours. */
export type Removal = {
  dwellId: string;
  /** When its last drain ended. */
  at: EpochMs;
  /** drained − filled; null while a volume is missing. */
  removedMl: number | null;
};

/** When the next thing is due, as instants; `rule` says in one word which rule gave it. */
export type Due = {
  what: 'drain' | 'fill' | 'review';
  dueAt: EpochMs;
  soonAt: EpochMs;
  overdueAt: EpochMs;
  /** At twice the margin overdue becomes high. */
  farOverdueAt: EpochMs;
  rule:
    | 'length'
    | 'clock'
    | 'clockMinimum'
    | 'clockFar'
    | 'cycle'
    | 'order'
    | 'orderUntil'
    | 'nextItem'
    | 'afterDrain'
    | 'holdReview';
  /** The clock occurrence lay over four hours beyond the nominal dwell: the nurse is asked. */
  ask: boolean;
};

/** A balance over some time: complete, or what is missing. Positive = removed. */
export type Balance = {
  from: EpochMs;
  to: EpochMs;
  /** Σ (drained − filled) of what is known, mL. */
  removedMl: number;
  exchanges: number;
  /** Instants of the dwells (their last drain) whose volumes are missing. */
  missing: readonly { at: EpochMs; what: 'drain' | 'fill' }[];
  /** How many more lie before those listed (the newest 24 are). */
  missingEarlier: number;
  /** Other fluids as recorded, mL: null = nobody recorded any, which is not 0 mL. */
  otherInMl: number | null;
  otherOutMl: number | null;
};

export type StayState = {
  wardId: string;
  bed: string;
  admittedAt: EpochMs;
  dialysis: 'chronic' | 'acute';
  offWard: { since: EpochMs; where: string; backAbout: EpochMs | null } | null;
};

/** All that a bedside needs, folded from the patient's entries. Bounded: it does not grow with history. */
export type BedsideState = {
  foldVersion: number;
  patientId: string;
  stay: StayState | null;
  /** What was told of the fluid that left with the patient at the last transfer or discharge of this stay. */
  fluidHandover: FluidHandedOver | null;
  /** The last step of any visit: what a new step names as its `after`. */
  head: string | null;
  /** When that step happened: no later step may lie before it. */
  headAt: EpochMs | null;
  /** Sort key of the newest entry whose place in the order matters, for the quick path. */
  newest: { happenedAt: EpochMs; position: number } | null;
  /** The same of the alerts' entries: they have an order among themselves only. */
  newestAlert: { happenedAt: EpochMs; position: number } | null;
  /** The admission; before one, the patient. Names the dwell that no recorded fill began. */
  origin: string;
  cavity: Cavity;
  inside: Reckoning;
  visit: Visit | null;
  /** The last ended visit: open for the exact measure and the bag's fate, may be resumed when stopped. */
  lastVisit: Visit | null;
  /** The dwell whose drains are running or just ended; null while the cavity dwells and once the visit has ended. */
  openDwell: Dwell | null;
  /** Drained dwells of this stay, newest first, at most five. */
  lastDwells: readonly Dwell[];
  prescription: PrescriptionRevision | null;
  /**
   * The revision under which the newest fill inside was given: a new revision acts from the next fill, so the due time
   * of this dwell still comes from here. null when that fill named none, or nothing is inside.
   */
  revisionInside: PrescriptionRevision | null;
  discontinuedAt: EpochMs | null;
  /** The item of the last fill; the bag check proposes the one after it. */
  lastItemId: string | null;
  hold: Hold | null;
  /**
   * When what kept the cavity empty ended: a hold that was lifted, an order to stay empty that was ended before its
   * time. The next fill is owed some time after this, not after the old drain.
   */
  keptEmptyUntil: EpochMs | null;
  /** Open orders, oldest first. */
  orders: readonly Order[];
  /** Orders by telephone that were carried out or withdrawn before the physician countersigned, oldest first. */
  awaitingCountersign: readonly Order[];
  due: Due | null;
  day: Balance;
  shift: Balance;
  stayBalance: Balance;
  weight: (Payloads['weight'] & { at: EpochMs }) | null;
  bloodPressure: (Payloads['bloodPressure'] & { at: EpochMs }) | null;
  temperature: (Payloads['temperature'] & { at: EpochMs }) | null;
  glucose: (Payloads['glucose'] & { at: EpochMs }) | null;
  /** The last answer to "call first" before a strong bag, and the visit that it stands for. */
  calledFirst: (Payloads['calledFirst'] & { at: EpochMs; visitId: string | null }) | null;
  /** What somebody last said of each standing caution; null = nobody said anything. */
  cautions: Readonly<Record<StandingCaution, { present: boolean; at: EpochMs } | null>>;
  /** The last instant at which icodextrin is known to have been inside; null = never, as far as is recorded. */
  icodextrinAt: EpochMs | null;
  /** What the dwells drained within the last week took off, oldest first, at most 300. */
  removals: readonly Removal[];
  alerts: readonly OpenAlert[];
  /** What persons cleared with a reason, newest first, at most 20: the tool does not raise it again at that rank. */
  clearedByPerson: readonly Pick<OpenAlert, 'kind' | 'cause' | 'rank'>[];
  assignment: { accountId: string; name: string; from: EpochMs; to: EpochMs } | null;
  catheter: Payloads['catheter'] | null;
  /** When the catheter in use was put in; null = not known, or none. */
  catheterInsertedAt: EpochMs | null;
  /** What was said of comfort, newest first, at most 12. */
  comforts: readonly SaidComfort[];
  /** The newest look of the exit site. */
  exitSite: (Payloads['exitSite'] & { entryId: string; at: EpochMs }) | null;
  /** Who was told of findings, newest first, at most 12. */
  told: readonly (Payloads['told'] & { entryId: string })[];
  /** Suspected peritonitis, newest first, at most 5. */
  workUps: readonly WorkUp[];
};
