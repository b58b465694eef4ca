import { describe, expect, it } from 'vitest';
import { effluentBloody, effluentCloudy } from '../alert/rules-effluent.ts';
import { findingsOf } from '../peritonitis/findings.ts';
import { workUpToOpen } from '../peritonitis/opens-work-up.ts';
import type { EntryKind, Payloads } from '../record/entry.ts';
import { policyIn } from '../testing/bedside.ts';
import { Course, fillPayload, preparePayload } from '../testing/course.ts';
import { judged } from '../testing/judged.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { AFTERWARDS_MINUTES } from './afterwards.ts';

/** The codes of what is wrong with an act of minute 300, as it is entered some minutes later. */
function wrong<K extends EntryKind>(course: Course, kind: K, payload: Payloads[K], later: number, visitId: string) {
  return judged(course, kind, payload, { at: 300, now: 300 + later, visitId }).map(({ code }) => code);
}

const LATE = AFTERWARDS_MINUTES;

const dwelling = (policy?: WardPolicy) => new Course(policy).admit(0).firstFill(10, 2000);
const prepared = (course: Course, change: Partial<Payloads['prepare']> = {}): Payloads['prepare'] => ({
  ...preparePayload(course.state()),
  ...change,
});
const visitOf = (course: Course) => course.state().visit?.id ?? '';
/** Connected, and the drain over: what follows belongs to that visit. */
const drained = (drainedMl: number | null = 2300) => {
  const course = dwelling();
  course.prepare(260);
  course.write('connect', {}, 262);
  return course.drain(264, 280, drainedMl);
};

describe('what nobody watched', () => {
  const nobody = { noLeak: null, clear: null, warmed: null, sealWhole: null, mixed: null };

  it('of patient and bag may be said of a visit that was made a while ago, and never of one that is made now', () => {
    const course = dwelling();
    const unseen = prepared(course, { identifiers: null, bagChecks: nobody, afterwards: true });
    expect(wrong(course, 'prepare', unseen, LATE, 'new')).toEqual([]);
    const now = prepared(course, { identifiers: null, bagChecks: nobody });
    expect(wrong(course, 'prepare', now, LATE - 1, 'new')).toEqual(Array.from({ length: 5 }, () => 'not-watched'));
    expect(wrong(course, 'prepare', unseen, LATE - 1, 'new')).toContain('not-afterwards');
  });

  it('is no fault that was seen: a leak stays a leak', () => {
    const course = dwelling();
    const leaking = prepared(course, { bagChecks: { ...nobody, noLeak: false }, afterwards: true });
    expect(wrong(course, 'prepare', leaking, LATE, 'new')).toEqual(['bag-unfit']);
  });

  it('of seal, leak and flush may be said of a fill that was given a while ago', () => {
    const course = drained();
    const unseen = { ...fillPayload(course.state()), sealBroken: null, noLeak: null, flushMl: null };
    expect(wrong(course, 'startFill', unseen, LATE - 1, visitOf(course))).toEqual([
      'not-watched',
      'not-watched',
      'not-watched',
    ]);
    const told = { ...unseen, afterwards: { secondPerson: null } };
    expect(wrong(course, 'startFill', told, LATE, visitOf(course))).toEqual([]);
    expect(wrong(course, 'startFill', { ...told, noLeak: false }, LATE, visitOf(course))).toEqual(['leak']);
  });

  it('of flow, effluent and comfort may be said of a drain that ended a while ago', () => {
    const course = dwelling();
    course.prepare(260);
    course.write('connect', {}, 262);
    course.write('startDrain', {}, 264);
    const visit = visitOf(course);
    for (const [later, codes] of [
      [LATE, []],
      [LATE - 1, ['not-watched']],
    ] as const) {
      expect(wrong(course, 'endDrain', { flow: null }, later, visit)).toEqual(codes);
      expect(wrong(course, 'appearance', { drain: 1, appearance: null, note: null }, later, visit)).toEqual(codes);
      expect(wrong(course, 'comfort', { phase: 'drain', comfort: null }, later, visit)).toEqual(codes);
    }
  });
});

describe('what was given already is told', () => {
  it('although the guard would not have offered it, or a recall, an expiry or a glucose would have stopped it', () => {
    const course = drained(null);
    const fill = fillPayload(course.state());
    expect(wrong(course, 'startFill', fill, LATE, visitOf(course))).toEqual(['guard']);
    const told = { ...fill, afterwards: { secondPerson: null } };
    expect(wrong(course, 'startFill', told, LATE, visitOf(course))).toEqual([]);

    const recall = {
      id: 'recall',
      lot: 'LEAK7',
      of: { solutionId: 'glucose-2.27' },
      reason: 'leaks',
      since: 0,
      ended: null,
    };
    const policy = {
      ...policyIn('Europe/London', { glucoseBlockMinutes: 60 }),
      supplies: { products: [], recalls: [recall] },
    };
    const diabetic = dwelling(policy);
    diabetic.write('caution', { about: 'diabetes', present: true, note: null }, 20, { visitId: null });
    const bag = { ...preparePayload(diabetic.state()).bag!, lot: 'LEAK7', expiresOn: '2026-11-24' };
    expect(wrong(diabetic, 'prepare', prepared(diabetic, { bag }), LATE, 'new')).toEqual([
      'bag-expired',
      'bag-recalled',
      'glucose-first',
    ]);
    expect(wrong(diabetic, 'prepare', prepared(diabetic, { bag, afterwards: true }), LATE, 'new')).toEqual([]);
  });

  it('another fluid than prescribed only with the reason and by whose word', () => {
    const course = dwelling();
    const bag = { ...preparePayload(course.state()).bag!, solutionId: 'glucose-1.36' };
    const told = (override: Payloads['prepare']['override']) =>
      wrong(course, 'prepare', prepared(course, { bag, override, afterwards: true }), LATE, 'new');
    expect(told(null)).toEqual(['bag-solution']);
    expect(told({ reason: 'out of stock', physician: null })).toEqual(['bag-solution']);
    expect(told({ reason: 'out of stock', physician: 'Dr Invented' })).toEqual([]);
  });
});

describe('a drain that nobody watched', () => {
  const unseen = { drain: 1, appearance: null, note: null } as const;
  /** A drain that looked so, one that nobody watched, one that looked so again. */
  const between = (first: Payloads['appearance']['appearance'], last: Payloads['appearance']['appearance']) => {
    const course = dwelling();
    for (const [at, appearance] of [
      [260, first],
      [560, null],
      [860, last],
    ] as const) {
      course.exchange(at, 2200, 2000);
      course.write('appearance', { ...unseen, appearance }, at + 18);
    }
    return course;
  };

  it('leaves what was seen of that drain', () => {
    const course = drained();
    course.write('appearance', { ...unseen, appearance: ['cloudy'] }, 281);
    course.write('appearance', unseen, 281);
    expect(course.state().visit?.drains[0]?.appearance).toEqual(['cloudy']);
  });

  it('is not known in the state, never clear, and its dwell is not complete', () => {
    const course = dwelling();
    course.prepare(260);
    course.write('connect', {}, 262);
    course.write('startDrain', {}, 264);
    course.write('appearance', unseen, 280);
    course.write('endDrain', { flow: null }, 280);
    course.measure(280, 1, 'exact', 2300);
    course.write('close', { leftEmpty: true }, 285);
    const [dwell] = course.state().lastDwells;
    expect(dwell?.drains[0]).toMatchObject({ appearance: [], flow: null });
    expect(dwell?.complete).toBe(false);
    expect(course.state().cavity.state).not.toBe('empty');
  });

  it('does not make a bloody drain after it the first one', () => {
    const spans = effluentBloody.spans(between(['bloody'], ['bloody']).state(), policyIn('Europe/London', {}));
    expect(spans.map(({ rank }) => rank)).toEqual(['high', 'medium']);
  });

  it('ends no suspicion: after a peritonitis a cloudy drain opens a new work-up once one was seen clear, and only then', () => {
    const next = (appearance: Payloads['appearance']['appearance']) => {
      const course = dwelling();
      course.exchange(260, 2200, 2000);
      course.write('appearance', { ...unseen, appearance: ['cloudy'] }, 278);
      const opened = course.write('workUpOpened', workUpToOpen(course.state())!, 300, { visitId: null });
      const end = { workUpId: opened.id, conclusion: 'peritonitis', reason: 'two of three' } as const;
      course.write('workUpClosed', end, 320, { visitId: null });
      course.exchange(560, 2200, 2000);
      course.write('appearance', { ...unseen, appearance }, 578);
      course.exchange(860, 2200, 2000);
      course.write('appearance', { ...unseen, appearance: ['cloudy'] }, 878);
      return course;
    };
    const [seenClear, nobodyWatched] = [next(['clear']), next(null)];
    expect(workUpToOpen(seenClear.state())).not.toBeNull();
    expect(workUpToOpen(nobodyWatched.state())).toBeNull();
    expect(effluentCloudy.spans(seenClear.state(), seenClear.policy)).toHaveLength(2);
    expect(effluentCloudy.spans(nobodyWatched.state(), nobodyWatched.policy)).toHaveLength(1);
  });

  it('says neither clear nor cloudy, nor anything of pain, to the criteria', () => {
    const course = drained();
    course.write('appearance', unseen, 281);
    course.write('comfort', { phase: 'drain', comfort: null }, 281);
    const results = { count: null, culture: { state: 'pending' } as const };
    expect(findingsOf(course.entries, results)).toMatchObject({ cloudy: null, pain: null });
    expect(course.state().comforts).toEqual([]);
  });
});
