import fc from 'fast-check';
import { advance, fold } from '../bedside/fold.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Comfort } from '../effluent/effluent.ts';
import { judge } from '../exchange/judge.ts';
import { isStep, type Step } from '../exchange/steps.ts';
import { workUpToOpen } from '../peritonitis/opens-work-up.ts';
import type { Draft, Entry, EntryKind, Payloads } from '../record/entry.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { LONDON } from './bedside.ts';
import { Course, fillPayload, minute, PATIENT, preparePayload } from './course.ts';

/** One thing that somebody tries; whether it may be written, the judge says. */
export type Attempt = {
  /** The usual next step instead of `kind`, so that courses get somewhere. */
  usual: boolean;
  kind: (typeof TRIED)[number];
  /** Minutes since the one before. */
  minutes: number;
  volumeMl: number;
  choice: number;
  /** An observation may be written that many minutes after it was made. */
  lateMinutes: number;
};

const TRIED = [
  'prepare',
  'connect',
  'startDrain',
  'startDrain',
  'endDrain',
  'startFill',
  'startFill',
  'endFill',
  'close',
  'stop',
  'resume',
  'resume',
  'measure',
  'measure',
  'measure',
  'measure',
  'measure',
  'appearance',
  'bagFate',
  'flowMoves',
  'cavityConfirmedEmpty',
  'cavityConfirmedEmpty',
  'otherFluid',
  'weight',
  'comfort',
  'symptoms',
  'exitSite',
  'told',
  'sampleTaken',
  'resultReported',
  'antibioticStarted',
  'workUpClosed',
  'ordered',
  'held',
  'holdLifted',
  'holdLifted',
  'leftWard',
  'returned',
  'prescribed',
] as const satisfies readonly EntryKind[];

/** What a nurse would do next in an ordinary exchange. */
function usualStep({ visit, cavity }: BedsideState): Step {
  switch (visit?.state) {
    case undefined:
      return 'prepare';
    case 'preparing':
      return 'connect';
    case 'connected':
      return cavity.state === 'empty' ? 'startFill' : 'startDrain';
    case 'draining':
      return 'endDrain';
    case 'drained':
      return 'startFill';
    case 'filling':
      return 'endFill';
    case 'closing':
      return 'close';
  }
}

export const attempts = (most: number): fc.Arbitrary<readonly Attempt[]> =>
  fc.array(
    fc.record({
      usual: fc.boolean(),
      kind: fc.constantFrom(...TRIED),
      minutes: fc.oneof(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 400 })),
      volumeMl: fc.oneof(fc.integer({ min: 1900, max: 2500 }), fc.integer({ min: 0, max: 3000 })),
      choice: fc.nat({ max: 11 }),
      lateMinutes: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 90 })),
    }),
    { minLength: most / 2, maxLength: most, size: 'max' },
  );

const pick = <T>(choices: readonly T[], choice: number): T => choices[choice % choices.length]!;

const felt = ({ volumeMl, choice }: Attempt): Comfort => ({
  pain: pick([null, 0, 3, 8], volumeMl),
  phase: pick([null, 'newOrConstant'] as const, choice),
  cramp: choice % 5 === 0,
  breathless: choice % 3 === 0,
  leakAtExit: choice % 7 === 0,
  swelling: choice % 4 === 0,
});

const workUpOf = ({ workUps }: BedsideState, choice: number): string =>
  workUps.length === 0 ? 'none' : pick(workUps, choice).id;

/** The payload that somebody would type for an attempt, in the state that they see. */
const PAYLOADS: { [K in Attempt['kind']]: (state: BedsideState, attempt: Attempt) => Payloads[K] } = {
  prepare: (state, { choice }) => {
    const purpose = pick(['exchange', 'exchange', 'drainOnly', 'fillOnly'] as const, choice);
    const payload = preparePayload(state);
    return purpose === 'drainOnly' ? { ...payload, purpose, bag: null, bagChecks: null } : { ...payload, purpose };
  },
  connect: () => ({}),
  startDrain: () => ({}),
  endDrain: (_state, { choice }) => ({ flow: pick(['stopped', 'stopped', 'notStopped'] as const, choice) }),
  startFill: (state, { choice }) => ({
    ...fillPayload(state),
    guardOverride: choice % 4 === 0 ? { reason: 'the physician at the bed', physician: null } : null,
  }),
  endFill: (_state, { volumeMl, choice }) => ({
    infused:
      choice % 12 === 11
        ? { basis: 'notKnown' }
        : choice % 2 === 0
          ? { basis: 'wholeBag', labelledMl: 2000 }
          : { basis: 'stated', volumeMl },
  }),
  close: () => ({ leftEmpty: false }),
  stop: (state, { volumeMl }) => ({
    reason: 'calledAway',
    note: null,
    infused: state.visit?.state === 'filling' ? { basis: 'stated', volumeMl: volumeMl % 2000 } : null,
    contamination: null,
  }),
  resume: () => ({}),
  measure: (_state, { volumeMl, choice }) => ({
    drain: 1 + (choice % 2),
    role: pick(['reading', 'exact'] as const, choice >> 1),
    method: 'jug',
    flushIncluded: false,
    flushMl: 0,
    volumeMl,
  }),
  appearance: (_state, { choice }) => ({
    drain: 1 + (choice % 2),
    appearance: [pick(['clear', 'cloudy', 'fibrin'] as const, choice)],
    note: null,
  }),
  bagFate: (_state, { choice }) => ({ drain: 1 + (choice % 2), fate: 'discarded' }),
  flowMoves: (_state, { choice }) => ({ drain: 1, tried: [pick(['satUp', 'bowels'] as const, choice)] }),
  cavityConfirmedEmpty: () => ({ reason: 'imaging', note: '' }),
  otherFluid: (_state, { volumeMl, choice }) => ({
    direction: pick(['in', 'out'] as const, choice),
    route: 'other',
    volumeMl,
    note: null,
  }),
  weight: (_state, { volumeMl }) => ({ weightKg: 50 + volumeMl / 100, cavity: 'full' }),
  comfort: (_state, attempt) => ({ phase: pick(['drain', 'fill'] as const, attempt.choice), comfort: felt(attempt) }),
  symptoms: (_state, attempt) => ({ comfort: felt(attempt), note: null }),
  exitSite: (_state, { choice }) => ({
    pus: choice % 2 === 0,
    swelling: pick([0, 1, 2] as const, choice),
    crust: 0,
    redness: 0,
    pain: 0,
    drainage: 0,
    note: null,
  }),
  told: (_state, { volumeMl, choice }) => ({
    whom: 'Dr Imre Solberg',
    toldAt: minute(volumeMl),
    outcome: null,
    about: 'cloudy',
    ...(choice % 3 === 0 ? {} : { finding: { finding: 'cloudy' as const, cause: 'drain' } }),
    ...(choice % 4 === 0 ? { notReached: true as const } : {}),
  }),
  sampleTaken: (state, { choice }) => ({
    workUpId: workUpOf(state, choice),
    tests: ['cellCount', 'culture'],
    drainId: null,
    dwellMinutes: null,
    bottles: 2,
    beforeAntibiotic: true,
    bagKeptWhere: null,
    note: null,
  }),
  resultReported: (state, { choice, volumeMl }) => ({
    workUpId: workUpOf(state, choice),
    sampleId: null,
    whiteCells: { value: volumeMl, unit: '/uL' },
    polymorphPercent: 80,
    gramStain: null,
    culture: null,
    note: null,
  }),
  antibioticStarted: (state, { choice }) => ({
    workUpId: workUpOf(state, choice),
    what: pick(['vancomycin', 'cefazolin'] as const, choice),
    startedOn: '2026-11-25',
    answers: pick(['yes', 'no', 'notKnown'] as const, choice),
    note: null,
  }),
  workUpClosed: (state, { choice }) => ({
    workUpId: workUpOf(state, choice),
    conclusion: pick(['peritonitis', 'notPeritonitis', 'other'] as const, choice),
    reason: 'as the physician said',
  }),
  ordered: () => ({ content: { what: 'drainNow' }, note: null, telephone: null }),
  held: ({ newest }) => ({ reason: 'breathless', reviewBy: (newest?.happenedAt ?? minute(0)) + 70 * 3_600_000 }),
  holdLifted: () => ({}),
  leftWard: () => ({ where: 'X-ray', backAbout: null }),
  returned: () => ({}),
  prescribed: (state) => {
    const { items, limits, acute, note, reviewBy } = state.prescription!;
    return { items, limits, acute, note, reviewBy };
  },
};

export type Written = { entry: Entry; before: BedsideState; after: BedsideState; quick: boolean };

/** Tries one thing after another from an admission on, and keeps what the judge lets through. */
export function courseOf(
  tried: readonly Attempt[],
  inside: Payloads['admitted']['inside'] = { cavity: 'empty' },
  policy: WardPolicy = LONDON,
): { entries: readonly Entry[]; written: readonly Written[]; state: BedsideState; policy: WardPolicy } {
  const course = new Course(policy).admit(0, inside);
  let state = course.state();
  let now = 10;
  const written: Written[] = [];
  for (const attempt of tried) {
    now += attempt.minutes;
    const kind = attempt.usual ? usualStep(state) : attempt.kind;
    const payload = PAYLOADS[kind](state, attempt as never);
    // An observation speaks of an earlier time, and may speak of the visit before.
    const happenedAt = isStep(kind) || kind === 'cavityConfirmedEmpty' ? now : now - attempt.lateMinutes;
    const visitId = visitOf(state, kind, attempt.choice, course.entries.length);
    const draft = { kind, payload, visitId, patientId: PATIENT, happenedAt: minute(happenedAt) } as unknown as Draft;
    const role = kind === 'prescribed' || kind === 'ordered' || kind.startsWith('h') ? 'nephrologist' : 'chargeNurse';
    const problems = judge(state, draft, { now: minute(now), policy, actor: { accountId: 'somebody', role } });
    if (problems.length > 0) continue;
    const entry = course.write(kind, payload as never, happenedAt, { visitId });
    const quick = advance(state, entry, policy);
    const after = quick === 'refold' ? fold(PATIENT, course.entries, policy).state : quick.state;
    written.push({ entry, before: state, after, quick: quick !== 'refold' });
    state = after;
    const opening = workUpToOpen(state);
    if (opening === null) continue;
    const opened = course.write('workUpOpened', opening, now, { visitId: null, author: null });
    const added = advance(state, opened, policy);
    state = added === 'refold' ? fold(PATIENT, course.entries, policy).state : added.state;
    written.push({ entry: opened, before: after, after: state, quick: added !== 'refold' });
  }
  return { entries: course.entries, written, state, policy };
}

function visitOf(state: BedsideState, kind: EntryKind, choice: number, count: number): string | null {
  if (kind === 'prepare') return `visit-${count + 1}`;
  if (kind === 'resume') return state.lastVisit?.id ?? null;
  if (isStep(kind)) return state.visit?.id ?? null;
  return pick([state.visit, state.lastVisit], choice)?.id ?? state.visit?.id ?? state.lastVisit?.id ?? null;
}
