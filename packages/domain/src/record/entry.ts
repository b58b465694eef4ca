import type { AlertCondition, EscalatedTo } from '../alert/alert.ts';
import type { StandingCaution } from '../caution/caution.ts';
import type { EmptyReason } from '../cavity/cavity.ts';
import type { FluidHandover } from '../cavity/fluid-said.ts';
import type { Infused, Measure } from '../cavity/volume.ts';
import type { Appearance, Comfort, FlowEffect, FlowMove } from '../effluent/effluent.ts';
import type { Finding } from '../effluent/finding.ts';
import type { LookedAt } from '../exchange/looked-at.ts';
import type { PressureDoubt } from '../exchange/pressure-doubt.ts';
import type { CellCountUnit } from '../peritonitis/cell-count-units.ts';
import type { Culture } from '../peritonitis/episode.ts';
import type { ExitSite } from '../peritonitis/exit-site.ts';
import type { SampleTest, WorkUpConclusion } from '../peritonitis/work-up-terms.ts';
import type { Additive } from '../prescription/additive.ts';
import type { OrderContent, PatientLimits, PrescriptionItem, Telephone } from '../prescription/prescription.ts';
import type { BagInHand } from '../solution/solution.ts';
import type { SupplyChange } from '../solution/supplies.ts';
import type { EpochMs } from '../time/instant.ts';
import type { IsoDate } from '../time/zone.ts';

/** A reasoned going-on against a check: by whose word, why. */
export type Override = { reason: string; physician: string | null };

/** A reasoned going-on against an order to stay empty, and which one. */
export type DespiteOrder = Override & { orderId: string };

/** What stands in the record when fluid came with the patient. */
export type HandedOver =
  | { cavity: 'empty' }
  | { cavity: 'holding'; solutionId: string | null; filledMl: number | null; fillEndedAt: EpochMs | null }
  | { cavity: 'notKnown' };

/** Every kind of entry with its payload. A change that a board can show is one of these, and nothing else is. */
export type Payloads = {
  // ── steps of a visit: carry `after` ──
  prepare: {
    purpose: 'exchange' | 'drainOnly' | 'fillOnly';
    /** The two identifiers held against the wristband; null, as below: entered afterwards, and nobody watched it. */
    identifiers: readonly ('name' | 'dateOfBirth' | 'hospitalNumber' | 'wristband')[] | null;
    /** null: no bag yet (drain only). */
    bag: BagInHand | null;
    /** Which item or order the bag is for. */
    revisionId: string | null;
    itemId: string | null;
    orderId: string | null;
    /** Statements by eye and hand; null where there is no bag. `mixed` is null of one chamber too. */
    bagChecks: Record<'noLeak' | 'clear' | 'warmed' | 'sealWhole' | 'mixed', boolean | null> | null;
    override: Override | null;
    /** Set when the cavity is ordered to stay empty and somebody with the right went on. Left out: nobody did. */
    despiteOrder?: DespiteOrder | undefined;
    /** Told of a visit that was made already: nobody can be stopped. */
    afterwards?: true | undefined;
  };
  connect: Record<never, never>;
  /** `early`: an additive should have stayed longer, and the nurse went on, why and by whose word. */
  startDrain: { early?: Override | undefined };
  /**
   * `stopped`: the flow ran to a stop. `notStopped`: it was ended while it still ran, or a part was ordered. null: entered
   * afterwards, and nobody watched it; nothing is taken for complete by it.
   */
  endDrain: { flow: 'stopped' | 'notStopped' | null };
  startFill: {
    bag: BagInHand;
    revisionId: string | null;
    itemId: string | null;
    orderId: string | null;
    /** mL that are to run in from this bag: all of what is prescribed, or the rest of it. */
    prescribedMl: number;
    /** What was put into the bag: as prescribed, or nothing is filled. */
    additives: readonly Additive[];
    /** mL run through the line into the drain bag before the fill; null: nobody watched it, as with what follows. */
    flushMl: number | null;
    sealBroken: boolean | null;
    noLeak: boolean | null;
    /** Set when the guard said no and somebody with the right went on. */
    guardOverride: Override | null;
    /** Set when the bag is expired or recalled and was not let through with the preparation: a second one, or since. */
    bagOverride?: Override | undefined;
    /** As in `prepare`, for an order that came or began to hold after it. */
    despiteOrder?: DespiteOrder | undefined;
    /** Given already: nobody can be stopped. Who had checked what was added, by name and not signed; null: nothing was. */
    afterwards?: { secondPerson: string | null } | undefined;
  };
  endFill: { infused: Infused };
  /** Clamp, disconnect, cap. `leftEmpty` when no fill was given on purpose. */
  close: { leftEmpty: boolean };
  /** Ends the visit at any stage; a running drain or fill ends with what is known of it. */
  stop: {
    reason: 'pain' | 'breathless' | 'noFlow' | 'leak' | 'sterilityBroken' | 'patientAsked' | 'calledAway' | 'other';
    note: string | null;
    /** Only when a fill was running. */
    infused: Infused | null;
    /** Only for `sterilityBroken`. */
    contamination: { kind: 'wet' | 'dry'; clamped: boolean; setChanged: boolean; physicianTold: boolean } | null;
  };
  resume: Record<never, never>;

  // ── the second person, before a fill with something added: no `after` ──
  /** Asks for a check of one coming fill. */
  additiveCheckAsked: {
    /** The id that the `startFill` will have. */
    fillId: string;
    bag: BagInHand;
    revisionId: string | null;
    itemId: string | null;
    orderId: string | null;
    prescribedMl: number;
    additives: readonly Additive[];
  };
  /** The second person's own word, under their own sign-in. */
  additiveChecked: { askedId: string; looked: readonly LookedAt[]; agrees: boolean; note: string | null };

  // ── observations: no `after`, they commute ──
  /** null: entered afterwards, and nobody watched it. It says nothing, and unsays nothing. */
  appearance: { drain: number; appearance: readonly Appearance[] | null; note: string | null };
  comfort: { phase: 'drain' | 'fill'; comfort: Comfort | null };
  measure: Measure;
  flowMoves: { drain: number; tried: readonly FlowMove[] };
  /** What one of them did to the flow. */
  flowEffect: { drain: number; move: FlowMove; effect: FlowEffect };
  bagFate: { drain: number } & ({ fate: 'discarded' } | { fate: 'kept'; keptWhere: string; sampleSent: boolean });
  told: {
    whom: string;
    toldAt: EpochMs;
    outcome: string | null;
    about: string;
    /** What it was about: the finding, and the drain, visit or entry it was found at. */
    finding?: { finding: Finding; cause: string };
    /** Nobody was reached: also an outcome. Left out: somebody was. */
    notReached?: true;
  };
  /** How the patient is between visits. */
  symptoms: { comfort: Comfort; note: string | null };
  cavityConfirmedEmpty: { reason: EmptyReason; note: string };
  /**
   * Before a strong bag, with the blood pressure too low or not measured of late: who was called and what they said,
   * by whose right one goes on, or that it was given and is entered afterwards. Stands for one visit.
   */
  calledFirst: {
    about: PressureDoubt;
    by: 'told' | 'override' | 'afterwards';
    /** Only for `told`. */
    whom: string | null;
    words: string;
  };
  /** A standing fact about the patient that changes what is done: somebody says it, nothing infers it. */
  caution: { about: StandingCaution; present: boolean; note: string | null };
  weight: { weightKg: number; cavity: 'full' | 'empty' };
  bloodPressure: { systolicMmHg: number; diastolicMmHg: number; position: 'lying' | 'sitting' | 'standing' | null };
  temperature: { celsius: number };
  glucose: { glucoseMmolPerL: number; meter: 'glucoseSpecific' | 'other' };
  bowels: { opened: boolean; note: string | null };
  /** Other fluids of the whole-body balance; `out` for urine and other losses, `in` for oral and intravenous. */
  otherFluid: {
    direction: 'in' | 'out';
    route: 'oral' | 'intravenous' | 'urine' | 'otherDialysis' | 'other';
    volumeMl: number;
    note: string | null;
  };
  exitSite: ExitSite & { note: string | null };

  // ── a suspected peritonitis ──
  /** The tool opens it at the first suspect drain. */
  workUpOpened: {
    drainId: string;
    drainStartedAt: EpochMs;
    appearance: readonly Appearance[];
    /** How long that fluid had dwelt, from the record; null = not known. */
    dwellMinutes: number | null;
  };
  sampleTaken: {
    workUpId: string;
    tests: readonly SampleTest[];
    /** null: not from a drain that the bedside holds. */
    drainId: string | null;
    /** As the record has it for that drain; null = not known. */
    dwellMinutes: number | null;
    /** Blood-culture bottles inoculated. */
    bottles: number;
    beforeAntibiotic: boolean;
    bagKeptWhere: string | null;
    note: string | null;
  };
  /** What the laboratory said, as far as it has; null = not in this report. */
  resultReported: {
    workUpId: string;
    sampleId: string | null;
    whiteCells: { value: number; unit: CellCountUnit } | null;
    polymorphPercent: number | null;
    gramStain: string | null;
    culture: Culture | null;
    note: string | null;
  };
  /** What was begun and when, and whether the organism answers to it: said again as soon as that is known. No dose. */
  antibioticStarted: {
    workUpId: string;
    what: string;
    startedOn: IsoDate;
    answers: 'yes' | 'no' | 'notKnown';
    note: string | null;
  };
  workUpClosed: { workUpId: string; conclusion: WorkUpConclusion; reason: string };

  // ── stay ──
  admitted: { bed: string; inside: HandedOver; dialysis: 'chronic' | 'acute' };
  /** `fluid`: with fluid inside, or nobody knows what, who was told of it. Left out: the cavity was empty. */
  transferredOut: { toWardId: string; fluid?: FluidHandover | undefined };
  transferredIn: { fromWardId: string; bed: string };
  movedBed: { bed: string };
  /** `undrained`: ordered to leave empty, and left with fluid inside: why, and by whose word. */
  leftWard: { where: string; backAbout: EpochMs | null; undrained?: Override | undefined };
  returned: Record<never, never>;
  discharged: { to: string; handover: string | null; fluid?: FluidHandover | undefined };
  assigned: { accountId: string | null; name: string | null; from: EpochMs; to: EpochMs };
  catheter: {
    event: 'inserted' | 'firstUse' | 'setChanged' | 'removed';
    note: string | null;
    breakInLimitMl: number | null;
    breakInUntil: EpochMs | null;
    breakInPosture: string | null;
  };
  dialysisPeriod: { event: 'started' | 'stopped'; modality: 'chronic' | 'acute'; note: string | null };

  // ── prescription and orders ──
  prescribed: {
    items: readonly PrescriptionItem[];
    limits: PatientLimits;
    acute: boolean;
    note: string | null;
    reviewBy: EpochMs | null;
  };
  held: { reason: string; reviewBy: EpochMs };
  holdLifted: Record<never, never>;
  discontinued: { reason: string };
  ordered: { content: OrderContent; note: string | null; telephone: Telephone | null };
  countersigned: { orderId: string };
  orderEnded: { orderId: string; why: 'done' | 'withdrawn'; reason: string | null };

  // ── alerts ──
  alertRaised: { condition: AlertCondition; settingsVersion: number };
  alertAcknowledged: { alertId: string; until: EpochMs };
  alertHandedOn: { alertId: string; toAccountId: string; until: EpochMs };
  alertSnoozed: { alertId: string; until: EpochMs };
  alertEscalated: { alertId: string; to: EscalatedTo };
  alertCleared: { alertId: string; by: 'condition' | 'person'; reason: string | null };

  // ── about other entries ──
  /** The target counts as if it had said this, at this time; the original stays readable. */
  corrected: { target: string; reason: string; payload: Readonly<Record<string, unknown>>; happenedAt: EpochMs };
  /** The target never counted. `enteredAs` links the same act entered for the right patient. */
  retracted: { target: string; reason: string; enteredAs: string | null };

  // ── about the patient; names themselves stand outside the record ──
  /** Name, number or cautions were put right: which fields, not what they said. */
  identityChanged: { fields: readonly string[] };
  /** By law: the payloads of all entries before this one are gone, and so are the names. */
  erased: { reason: string };

  // ── ward ──
  /** Products and recalled lots are the hospital's: written on one ward, they hold on all. */
  suppliesChanged: { change: SupplyChange };
  settingsChanged: { version: number; changes: Readonly<Record<string, number | string>> };

  // ── history ──
  /** One past exchange of a flow sheet, whole. */
  imported: {
    drainStartedAt: EpochMs | null;
    drainEndedAt: EpochMs | null;
    drainedMl: number | null;
    appearance: readonly Appearance[];
    fillStartedAt: EpochMs | null;
    fillEndedAt: EpochMs | null;
    filledMl: number | null;
    solutionId: string | null;
    note: string | null;
  };
};

export type EntryKind = keyof Payloads;

/** What an author writes; the server adds position, clock and digest. */
export type Draft<K extends EntryKind = EntryKind> = {
  [P in K]: {
    /** Made by the author's device: UUID v7 (v8 from the content for imported rows and the tool's own entries). */
    id: string;
    kind: P;
    /** Format of the payload; decoders are kept for ever. */
    format: 1;
    payload: Payloads[P];
    patientId: string | null;
    visitId: string | null;
    happenedAt: EpochMs;
    /** The last step that the author saw; steps only. null for a first step. */
    after: string | null;
  };
}[K];

export type Entry<K extends EntryKind = EntryKind> = Draft<K> & {
  siteId: string;
  wardId: string;
  /** The device's own clock when it was written; null for the tool's own entries. */
  deviceAt: EpochMs | null;
  receivedAt: EpochMs;
  /** Account id; null = the tool itself. */
  author: string | null;
  /** Gapless per ward, in commit order. */
  position: number;
};
