import { randomUUIDv7 } from 'node:crypto';
import {
  type BagInHand,
  type BedsideState,
  bagFor,
  type Draft,
  type EntryKind,
  type EpochMs,
  fillAgainst,
  guardFill,
  MINUTE_MS,
  measuredMl,
  type Payloads,
  pressureQuestion,
  type Visit,
  type WardPolicy,
} from '@slackwater/domain';
import { expectedUf } from '@slackwater/domain/cavity/expected';
import type { Chance } from '../chance.ts';

/** What a simulated nurse writes next, once `afterMinutes` have gone by since the last step; null = nothing to do. */
export type Act = { afterMinutes: number; drafts: readonly Draft[] };

type Next = { state: BedsideState; policy: WardPolicy; now: EpochMs; random: Chance };

/** The next touch of an ordinary exchange. Observations go with the step they belong to, as at the bedside. */
export function nextAct(next: Next): Act | null {
  const { visit, lastVisit } = next.state;
  if (!visit) return lastVisit && needsFinish(lastVisit) ? finish(next, lastVisit) : begin(next);
  switch (visit.state) {
    case 'preparing':
      return { afterMinutes: 4, drafts: chained(next, visit.id, [['connect', {}], ...drainOrNothing(next, visit)]) };
    case 'connected':
      return visit.purpose === 'fillOnly'
        ? startFill(next, visit)
        : { afterMinutes: 1, drafts: chained(next, visit.id, [['startDrain', {}]]) };
    case 'draining':
      return endDrain(next, visit);
    case 'drained':
      return visit.purpose === 'drainOnly'
        ? { afterMinutes: 2, drafts: chained(next, visit.id, [['close', { leftEmpty: true }]]) }
        : startFill(next, visit);
    case 'filling':
      return {
        afterMinutes: next.random.between(7, 12),
        drafts: chained(next, visit.id, [
          ['endFill', { infused: { basis: 'wholeBag', labelledMl: visit.fill?.prescribedMl ?? 0 } }],
        ]),
      };
    case 'closing':
      return { afterMinutes: 2, drafts: chained(next, visit.id, [['close', { leftEmpty: false }]]) };
  }
}

type Step = readonly [EntryKind, unknown];

/** Steps one after another at the same instant, each naming the one before. */
function chained({ state, now }: Next, visitId: string, steps: readonly Step[]): Draft[] {
  let after = state.head;
  return steps.map(([kind, payload]) => {
    const id = randomUUIDv7();
    const draft = {
      id,
      kind,
      format: 1,
      payload,
      patientId: state.patientId,
      visitId,
      happenedAt: now,
      after,
    } as Draft;
    after = id;
    return draft;
  });
}

function observation<K extends EntryKind>({ state, now }: Next, visitId: string, kind: K, payload: Payloads[K]): Draft {
  return {
    id: randomUUIDv7(),
    kind,
    format: 1,
    payload,
    patientId: state.patientId,
    visitId,
    happenedAt: now,
    after: null,
  } as Draft;
}

/** Before a strong bag the pressure is measured, and the physician called, where the ward asks for it. */
function pressureFirst(next: Next, solutionId: string | null, visitId: string): readonly Draft[] {
  const question = pressureQuestion(next.state, solutionId, next.now, visitId, next.policy);
  if (question === null) return [];
  const systolicMmHg = Math.round(next.random.between(122, 148));
  const { about } = question;
  return [
    observation(next, visitId, 'bloodPressure', { systolicMmHg, diastolicMmHg: 74, position: 'sitting' }),
    observation(next, visitId, 'calledFirst', { about, by: 'told', whom: 'Dr Solberg', words: 'go on' }),
  ];
}

const drainOrNothing = ({ state }: Next, visit: Visit): readonly Step[] =>
  visit.purpose === 'fillOnly' || state.cavity.state === 'empty' ? [] : [['startDrain', {}]];

function begin(next: Next): Act | null {
  const { state, policy, now } = next;
  if (!state.stay || state.stay.offWard) return null;
  // A dwell keeps its time, however fast the nurses are.
  if (state.due === null || state.due.what === 'review' || state.due.soonAt > now) return null;
  const wanted = bagFor(state, policy);
  const full = state.cavity.state !== 'empty';
  const staysEmpty = fillAgainst(state, wanted?.orderId ?? null, now, policy.settings) !== null;
  const isOffered = wanted !== null && guardFill(state, wanted.fillMl, policy).offer !== 'no';
  if (!full && (!isOffered || state.hold || staysEmpty)) return null;
  // A bag with something added takes two people, and nobody here is a second person.
  if (wanted && wanted.additives.length > 0) return null;
  const drainOnly = full && (!wanted || state.hold !== null || staysEmpty);
  const bag: BagInHand | null =
    wanted && !drainOnly
      ? {
          solutionId: wanted.solutionId,
          labelledMl: wanted.fillMl,
          expiresOn: new Date(now + 300 * 24 * 60 * MINUTE_MS).toISOString().slice(0, 10),
          lot: 'K7311-2',
          read: 'typed',
        }
      : null;
  const payload: Payloads['prepare'] = {
    purpose: drainOnly ? 'drainOnly' : full ? 'exchange' : 'fillOnly',
    identifiers: ['name', 'dateOfBirth'],
    bag,
    revisionId: bag ? (wanted?.revisionId ?? null) : null,
    itemId: bag ? (wanted?.itemId ?? null) : null,
    orderId: bag ? (wanted?.orderId ?? null) : null,
    bagChecks: bag && { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null },
    override: null,
  };
  const visitId = randomUUIDv7();
  const pressure = pressureFirst(next, bag?.solutionId ?? null, visitId);
  return { afterMinutes: 0, drafts: [...pressure, ...chained(next, visitId, [['prepare', payload]])] };
}

function endDrain(next: Next, visit: Visit): Act {
  const { state, policy, random, now } = next;
  const filledMl =
    state.cavity.state === 'holding' ? state.cavity.fills.reduce((sum, fill) => sum + (fill.filledMl ?? 0), 0) : 0;
  const fill = state.cavity.state === 'holding' ? state.cavity.fills[0] : undefined;
  const solution = policy.formulary.find((one) => one.id === fill?.solutionId);
  const dwellMinutes = fill?.endedAt ? (now - fill.endedAt) / MINUTE_MS : 240;
  const expected = solution ? expectedUf(solution, filledMl, dwellMinutes, policy.settings) : null;
  const volumeMl = Math.max(50, Math.round(random.normal(filledMl + (expected?.ufMl ?? 0), 90) / 50) * 50);
  const drain = visit.drains.length;
  const comfort = { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false };
  return {
    afterMinutes: random.between(13, 19),
    drafts: [
      observation(next, visit.id, 'appearance', { drain, appearance: ['clear'], note: null }),
      observation(next, visit.id, 'comfort', { phase: 'drain', comfort }),
      ...chained(next, visit.id, [['endDrain', { flow: 'stopped' }]]),
      observation(next, visit.id, 'measure', {
        drain,
        role: 'reading',
        method: 'bagMarks',
        volumeMl,
        flushIncluded: false,
        flushMl: 0,
      }),
    ],
  };
}

function startFill(next: Next, visit: Visit): Act | null {
  const { bag } = visit;
  const wanted = bagFor(next.state, next.policy);
  if (!bag || !wanted) return null;
  const staysEmpty = fillAgainst(next.state, visit.orderId, next.now, next.policy.settings) !== null;
  if (staysEmpty || guardFill(next.state, wanted.fillMl, next.policy).offer === 'no') {
    // nobody of the play goes on against the guard or an order: the cavity stays empty until somebody decides
    return { afterMinutes: 3, drafts: chained(next, visit.id, [['close', { leftEmpty: true }]]) };
  }
  const payload: Payloads['startFill'] = {
    bag,
    revisionId: visit.revisionId,
    itemId: visit.itemId,
    orderId: visit.orderId,
    prescribedMl: wanted.fillMl,
    additives: wanted.additives,
    flushMl: next.policy.settings.flushMl,
    sealBroken: true,
    noLeak: true,
    guardOverride: null,
  };
  const pressure = pressureFirst(next, bag.solutionId, visit.id);
  return { afterMinutes: 3, drafts: [...pressure, ...chained(next, visit.id, [['startFill', payload]])] };
}

const needsFinish = (visit: Visit): boolean =>
  visit.drains.length > 0 && visit.bagFates.length === 0 && visit.stopped === null;

/** The exact measure repeats the reading to the gram, and the bag goes. */
function finish(next: Next, visit: Visit): Act | null {
  const drained = visit.drains.at(-1);
  if (!drained || drained.readingMl === null || drained.appearance.includes('cloudy')) return null;
  const tareG = 98;
  const { flushMl, densityGPerMl } = next.policy.settings;
  const inBagMl = drained.readingMl + next.random.between(-20, 20) + flushMl;
  const measure: Payloads['measure'] = {
    drain: visit.drains.length,
    role: 'exact',
    method: 'scale',
    grossG: Math.round(inBagMl * densityGPerMl) + tareG,
    tareG,
    densityGPerMl,
    flushIncluded: true,
    flushMl,
  };
  if (measuredMl(measure) < 0) return null;
  return {
    afterMinutes: 2,
    drafts: [
      observation(next, visit.id, 'measure', measure),
      observation(next, visit.id, 'bagFate', { drain: visit.drains.length, fate: 'discarded' }),
    ],
  };
}
