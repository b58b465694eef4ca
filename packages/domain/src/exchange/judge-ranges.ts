import type { FluidHandover } from '../cavity/fluid-said.ts';
import type { Comfort } from '../effluent/effluent.ts';
import { additiveProblems } from '../prescription/additive-problems.ts';
import { orderProblems, orderTimeProblems } from '../prescription/order-problems.ts';
import { prescriptionProblems, solutionProblem } from '../prescription/problems.ts';
import { outOfRange } from '../prescription/ranges.ts';
import type { Draft, EntryKind, Payloads } from '../record/entry.ts';
import { type Problem, within } from '../record/problem.ts';
import { withSupplyChange } from '../solution/supplies.ts';
import { changedPolicy } from '../ward/changed-policy.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { nothing, refusal } from './judge-types.ts';
import { resultProblems, sampleProblems } from './judge-work-up.ts';
import { bagRanges, drainNumber, infusedProblems, labelled, measureProblems } from './ranges-of-fluid.ts';
import { later, notFarther, soon } from './ranges-of-time.ts';

type Range<K extends EntryKind> = (
  draft: Pick<Draft<K>, 'payload' | 'happenedAt'>,
  policy: WardPolicy,
) => readonly Problem[];

type Found = readonly (Problem | null)[];

const inPayload = (found: Found): readonly Problem[] =>
  found.filter((problem) => problem !== null).map((problem) => within('payload', problem));

const filled = (field: string, text: string): Found =>
  text.trim() === '' ? [refusal('missing', `${field} is empty.`, field, text, 'some words')] : [];

const told = (fluid: FluidHandover | undefined): Found =>
  fluid === undefined ? [] : filled('fluid.toWhom', fluid.toWhom);

/** The typed ranges of every kind, by the ward's settings (common practice). A kind without its line does not compile. */
export const RANGES: { readonly [K in EntryKind]: Range<K> } = {
  prepare: ({ payload }, policy) => inPayload(payload.bag === null ? [] : bagRanges(payload.bag, policy.settings)),
  connect: nothing,
  startDrain: nothing,
  endDrain: nothing,
  startFill: ({ payload }, { settings }) =>
    inPayload([
      ...bagRanges(payload.bag, settings),
      outOfRange('prescribedMl', payload.prescribedMl, 1, settings.filledMostMl, 'mL'),
      payload.flushMl === null ? null : outOfRange('flushMl', payload.flushMl, 0, settings.flushMostMl, 'mL'),
      ...additiveProblems(payload.additives, 'additives', settings),
    ]),
  endFill: ({ payload }, { settings }) => inPayload(infusedProblems(payload.infused, 1, settings)),
  close: nothing,
  // A fill that is stopped may have put in nothing.
  stop: ({ payload }, { settings }) =>
    inPayload(payload.infused === null ? [] : infusedProblems(payload.infused, 0, settings)),
  resume: nothing,

  additiveCheckAsked: ({ payload }, { settings }) =>
    inPayload([
      labelled('bag.labelledMl', payload.bag.labelledMl, settings),
      outOfRange('prescribedMl', payload.prescribedMl, 1, settings.filledMostMl, 'mL'),
      ...additiveProblems(payload.additives, 'additives', settings),
    ]),
  additiveChecked: nothing,

  appearance: ({ payload }) =>
    inPayload([
      drainNumber(payload.drain),
      payload.appearance?.length === 0
        ? refusal('missing', 'appearance is empty; say what was seen.', 'appearance', [], 'one or more')
        : null,
    ]),
  comfort: ({ payload }) => inPayload(payload.comfort === null ? [] : painProblems(payload.comfort)),
  measure: ({ payload }, { settings }) => inPayload(measureProblems(payload, settings)),
  flowMoves: ({ payload }) => inPayload([drainNumber(payload.drain)]),
  flowEffect: ({ payload }) => inPayload([drainNumber(payload.drain)]),
  bagFate: ({ payload }) =>
    inPayload([drainNumber(payload.drain), ...(payload.fate === 'kept' ? filled('keptWhere', payload.keptWhere) : [])]),
  told: ({ payload }) => inPayload([...filled('whom', payload.whom), ...filled('about', payload.about)]),
  cavityConfirmedEmpty: nothing,
  calledFirst: nothing,
  caution: nothing,
  weight: ({ payload }) => inPayload([outOfRange('weightKg', payload.weightKg, 1, 350, 'kg')]),
  bloodPressure: ({ payload }) =>
    inPayload([
      outOfRange('systolicMmHg', payload.systolicMmHg, 20, 280, 'mmHg'),
      outOfRange('diastolicMmHg', payload.diastolicMmHg, 20, 280, 'mmHg'),
      payload.diastolicMmHg < payload.systolicMmHg
        ? null
        : refusal(
            'out-of-order',
            `diastolicMmHg is ${payload.diastolicMmHg}; allowed is below systolicMmHg, ${payload.systolicMmHg}.`,
            'diastolicMmHg',
            payload.diastolicMmHg,
            'below systolicMmHg',
          ),
    ]),
  temperature: ({ payload }) => inPayload([outOfRange('celsius', payload.celsius, 30, 43, '°C')]),
  glucose: ({ payload }) => inPayload([outOfRange('glucoseMmolPerL', payload.glucoseMmolPerL, 0.5, 60, 'mmol/L')]),
  bowels: nothing,
  otherFluid: ({ payload }, { settings }) =>
    inPayload([
      outOfRange('volumeMl', payload.volumeMl, 0, settings.urineMostMl, 'mL'),
      payload.route === 'urine' && payload.direction === 'in'
        ? refusal('out-of-order', 'Urine goes out, not in.', 'direction', payload.direction, 'out')
        : null,
    ]),
  exitSite: nothing,
  symptoms: ({ payload }) => inPayload(painProblems(payload.comfort)),

  workUpOpened: nothing,
  sampleTaken: ({ payload }) => inPayload(sampleProblems(payload)),
  resultReported: ({ payload }) => inPayload(resultProblems(payload)),
  antibioticStarted: ({ payload }) => inPayload(filled('what', payload.what)),
  workUpClosed: ({ payload }) => inPayload(filled('reason', payload.reason)),

  admitted: ({ payload, happenedAt }, policy) =>
    inPayload([...filled('bed', payload.bed), ...handedOver(payload, happenedAt, policy)]),
  transferredOut: ({ payload }) => inPayload(told(payload.fluid)),
  transferredIn: ({ payload }) => inPayload(filled('bed', payload.bed)),
  movedBed: ({ payload }) => inPayload(filled('bed', payload.bed)),
  leftWard: ({ payload, happenedAt }) =>
    inPayload([...filled('where', payload.where), later('backAbout', payload.backAbout, happenedAt)]),
  returned: nothing,
  discharged: ({ payload }) => inPayload([...filled('to', payload.to), ...told(payload.fluid)]),
  assigned: ({ payload }) => inPayload([later('to', payload.to, payload.from)]),
  catheter: ({ payload }, { settings }) =>
    inPayload([
      payload.breakInLimitMl === null
        ? null
        : outOfRange('breakInLimitMl', payload.breakInLimitMl, 1, settings.filledMostMl, 'mL'),
    ]),
  dialysisPeriod: nothing,

  prescribed: ({ payload, happenedAt }, policy) =>
    inPayload([
      ...prescriptionProblems(payload, policy),
      later('reviewBy', payload.reviewBy, happenedAt),
      notFarther('reviewBy', payload.reviewBy, happenedAt, 24 * policy.settings.prescriptionReviewMostDays),
    ]),
  held: ({ payload, happenedAt }, { settings }) =>
    inPayload([
      ...filled('reason', payload.reason),
      later('reviewBy', payload.reviewBy, happenedAt),
      notFarther('reviewBy', payload.reviewBy, happenedAt, settings.holdReviewMostHours),
    ]),
  holdLifted: nothing,
  discontinued: ({ payload }) => inPayload(filled('reason', payload.reason)),
  ordered: ({ payload, happenedAt }, policy) =>
    inPayload([...orderProblems(payload, policy), ...orderTimeProblems(payload, happenedAt, policy)]),
  countersigned: nothing,
  orderEnded: ({ payload }) => inPayload(payload.why === 'withdrawn' ? filled('reason', payload.reason ?? '') : []),

  alertRaised: nothing,
  alertAcknowledged: ({ payload, happenedAt }, policy) => inPayload([soon(payload.until, happenedAt, policy)]),
  alertHandedOn: ({ payload, happenedAt }, policy) => inPayload([soon(payload.until, happenedAt, policy)]),
  alertSnoozed: ({ payload, happenedAt }, policy) => inPayload([soon(payload.until, happenedAt, policy)]),
  alertEscalated: nothing,
  alertCleared: ({ payload }) => inPayload(payload.by === 'person' ? filled('reason', payload.reason ?? '') : []),

  corrected: ({ payload }) => inPayload(filled('reason', payload.reason)),
  retracted: ({ payload }) => inPayload(filled('reason', payload.reason)),

  identityChanged: nothing,
  erased: nothing,

  suppliesChanged: ({ payload, happenedAt }, policy) =>
    withSupplyChange(policy.supplies, payload.change, { id: '', at: happenedAt }, policy.formulary).problems.map(
      (problem) => within('payload.change', problem),
    ),
  settingsChanged: ({ payload }, policy) =>
    changedPolicy(policy, payload.changes).problems.map((problem) => within('payload.changes', problem)),

  imported: ({ payload }, policy) => inPayload(importedProblems(payload, policy)),
};

const painProblems = ({ pain }: Comfort): Found => (pain === null ? [] : [outOfRange('comfort.pain', pain, 0, 10, '')]);

function handedOver({ inside }: Payloads['admitted'], admittedAt: number, policy: WardPolicy): Found {
  if (inside.cavity !== 'holding') return [];
  const { solutionId, filledMl, fillEndedAt } = inside;
  return [
    solutionId === null ? null : solutionProblem('inside.solutionId', solutionId, policy),
    filledMl === null ? null : outOfRange('inside.filledMl', filledMl, 1, policy.settings.filledMostMl, 'mL'),
    fillEndedAt === null ? null : later('admission', admittedAt, fillEndedAt - 1),
  ];
}

function importedProblems(payload: Payloads['imported'], policy: WardPolicy): Found {
  const { drainedMl, filledMl, solutionId, drainStartedAt, drainEndedAt, fillStartedAt, fillEndedAt } = payload;
  const times = [drainStartedAt, drainEndedAt, fillStartedAt, fillEndedAt].filter((at) => at !== null);
  return [
    drainedMl === null ? null : outOfRange('drainedMl', drainedMl, 0, policy.settings.drainedMostMl, 'mL'),
    filledMl === null ? null : outOfRange('filledMl', filledMl, 1, policy.settings.filledMostMl, 'mL'),
    solutionId === null ? null : solutionProblem('solutionId', solutionId, policy),
    times.every((at, index) => index === 0 || at >= times[index - 1]!)
      ? null
      : refusal(
          'out-of-order',
          'Drain start, drain end, fill start, fill end follow one another.',
          'fillEndedAt',
          times,
        ),
  ];
}
