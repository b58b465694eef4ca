import { describe, expect, it } from 'vitest';
import type { Role } from '../access/roles.ts';
import { icodextrinCaution } from '../caution/icodextrin.ts';
import { standingCautions } from '../caution/words.ts';
import type { Draft, EntryKind, Payloads } from '../record/entry.ts';
import { policyIn } from '../testing/bedside.ts';
import { Course, minute, PATIENT, preparePayload } from '../testing/course.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { judge } from './judge.ts';

const DAY = 24 * 60;
const STRONG = {
  solutionId: 'glucose-3.86',
  labelledMl: 2000,
  expiresOn: '2027-06-30',
  lot: null,
  read: 'typed',
} as const;

/** Prescribed 3.86 %, with a lowest systolic pressure of 100 mmHg. */
function strongCourse(policy?: WardPolicy, solutionId = 'glucose-3.86') {
  const course = new Course(policy).admit(0);
  const { items, limits, ...rest } = course.prescribe(1, { systolicLowMmHg: 100 }).payload as Payloads['prescribed'];
  course.write('prescribed', { items: items.map((item) => ({ ...item, solutionId })), limits, ...rest }, 2);
  return course;
}

const codes = <K extends EntryKind>(
  course: Course,
  kind: K,
  payload: Payloads[K],
  at: number,
  { role = 'nurse', now = at, visitId = 'visit-new' }: { role?: Role; now?: number; visitId?: string | null } = {},
) => {
  const draft = { kind, payload, visitId, patientId: PATIENT, happenedAt: minute(at) } as unknown as Draft;
  const context = { now: minute(now), policy: course.policy, actor: { accountId: 'somebody', role } };
  return judge(course.state(), draft, context).map(({ code }) => code);
};

const prepare = (course: Course, at: number, solutionId = 'glucose-3.86') =>
  codes(
    course,
    'prepare',
    { ...preparePayload(course.state()), purpose: 'fillOnly', bag: { ...STRONG, solutionId } },
    at,
  );

const measure = (course: Course, systolicMmHg: number, at: number) =>
  course.write('bloodPressure', { systolicMmHg, diastolicMmHg: 60, position: null }, at, { visitId: null });

const told = { about: 'pressureTooOld', by: 'told', whom: 'Dr Imre Solberg', words: 'go on' } as const;

describe('before a strong bag', () => {
  it('a pressure that was never measured, or over an hour ago, is too old', () => {
    const course = strongCourse();
    expect(prepare(course, 10)).toEqual(['pressure-too-old']);
    measure(course, 120, 10);
    expect(prepare(course, 70)).toEqual([]);
    expect(prepare(course, 71)).toEqual(['pressure-too-old']);
  });
  it("a pressure below the patient's limit is too low, at the limit it is not", () => {
    const course = strongCourse();
    measure(course, 100, 10);
    expect(prepare(course, 11)).toEqual([]);
    measure(course, 99, 12);
    expect(prepare(course, 13)).toEqual(['pressure-too-low']);
  });
  it('asks nothing for a bag that the ward does not call strong', () => {
    expect(prepare(strongCourse(undefined, 'glucose-2.27'), 10, 'glucose-2.27')).toEqual([]);
    const strict = policyIn('Europe/London', { strongBagGlucoseGPerL: 22 });
    expect(prepare(strongCourse(strict, 'glucose-2.27'), 10, 'glucose-2.27')).toEqual(['pressure-too-old']);
  });
  it('is settled by a call for this visit, and asked again once a later pressure is too low', () => {
    const course = strongCourse();
    course.write('calledFirst', told, 10, { visitId: 'visit-new' });
    expect(prepare(course, 11)).toEqual([]);
    measure(course, 90, 12);
    expect(prepare(course, 13)).toEqual(['pressure-too-low']);
    const other = strongCourse();
    other.write('calledFirst', told, 10, { visitId: 'visit-old' });
    expect(prepare(other, 11)).toEqual(['pressure-too-old']);
  });
  it('is asked before the fill again', () => {
    const course = strongCourse();
    measure(course, 120, 10);
    const prepared = course.prepare(11, { purpose: 'fillOnly', bag: STRONG });
    course.write('connect', {}, 12);
    const fill = {
      bag: STRONG,
      revisionId: course.state().prescription!.id,
      itemId: 'item',
      orderId: null,
      prescribedMl: 2000,
      additives: [],
      flushMl: 100,
      sealBroken: true,
      noLeak: true,
      guardOverride: null,
    };
    const { visitId } = prepared;
    expect(codes(course, 'startFill', fill, 70, { visitId })).toEqual([]);
    expect(codes(course, 'startFill', fill, 71, { visitId })).toEqual(['pressure-too-old']);
  });
  it('may be gone on with by role with a reason; nobody answers with empty words', () => {
    const course = strongCourse();
    const override = { about: 'pressureTooLow', by: 'override', whom: null, words: 'seen at the bed' } as const;
    expect(codes(course, 'calledFirst', override, 10)).toEqual(['pressure-role']);
    expect(codes(course, 'calledFirst', override, 10, { role: 'chargeNurse' })).toEqual([]);
    expect(codes(course, 'calledFirst', { ...told, whom: null }, 10)).toEqual(['missing']);
    expect(codes(course, 'calledFirst', { ...told, words: ' ' }, 10)).toEqual(['missing']);
    expect(codes(course, 'calledFirst', told, 10, { visitId: null })).toEqual(['missing']);
  });
  it('"afterwards" is for what was given and is entered later', () => {
    const course = strongCourse();
    const afterwards = { about: 'pressureTooOld', by: 'afterwards', whom: null, words: 'entered afterwards' } as const;
    expect(codes(course, 'calledFirst', afterwards, 10, { now: 24 })).toEqual(['not-afterwards']);
    expect(codes(course, 'calledFirst', afterwards, 10, { now: 25 })).toEqual([]);
  });
});

describe('with diabetes', () => {
  const glucose = { glucoseMmolPerL: 7, meter: 'glucoseSpecific' } as const;
  const diabetic = (settings: Parameters<typeof policyIn>[1]) => {
    const course = strongCourse(policyIn('Europe/London', settings), 'glucose-2.27');
    course.write('caution', { about: 'diabetes', present: true, note: null }, 3, { visitId: null });
    return course;
  };
  it('a missing glucose stops nothing, unless the ward has set so', () => {
    expect(prepare(diabetic({}), 10, 'glucose-2.27')).toEqual([]);
    const course = diabetic({ glucoseBlockMinutes: 60 });
    expect(prepare(course, 10, 'glucose-2.27')).toEqual(['glucose-first']);
    course.write('glucose', glucose, 10, { visitId: null });
    expect(prepare(course, 70, 'glucose-2.27')).toEqual([]);
    expect(prepare(course, 71, 'glucose-2.27')).toEqual(['glucose-first']);
    course.write('caution', { about: 'diabetes', present: false, note: 'entered at the wrong bed' }, 72, {
      visitId: null,
    });
    expect(prepare(course, 73, 'glucose-2.27')).toEqual([]);
  });
});

describe('icodextrin', () => {
  /** Handed over inside, drained at minute 18 of the course. */
  const drained = () => {
    const holding = {
      cavity: 'holding',
      solutionId: 'icodextrin-7.5',
      filledMl: 2000,
      fillEndedAt: minute(-600),
    } as const;
    return new Course().admit(0, holding).drainOnly(0, 2300);
  };
  const other = { glucoseMmolPerL: 9, meter: 'other' } as const;
  it('refuses another meter until two weeks after the last dwell (product information)', () => {
    const course = drained();
    expect(codes(course, 'glucose', other, 20)).toEqual(['meter-falsely-high']);
    expect(codes(course, 'glucose', { ...other, meter: 'glucoseSpecific' }, 20)).toEqual([]);
    expect(codes(course, 'glucose', other, 18 + 14 * DAY - 1)).toEqual(['meter-falsely-high']);
    expect(codes(course, 'glucose', other, 18 + 14 * DAY)).toEqual([]);
  });
  it('stands as a caution from the dwells alone, also while it is inside', () => {
    const course = drained();
    expect(icodextrinCaution(course.state(), minute(20), course.policy)?.until).toBe(minute(18 + 14 * DAY));
    expect(standingCautions(course.state(), minute(20), course.policy)).toEqual([
      'Icodextrin until 09-Dec-2026 08:18: glucose-specific meter only; amylase reads falsely low',
    ]);
    const inside = new Course().admit(0, {
      cavity: 'holding',
      solutionId: 'icodextrin-7.5',
      filledMl: 2000,
      fillEndedAt: minute(-1),
    });
    expect(icodextrinCaution(inside.state(), minute(5), inside.policy)).toMatchObject({ until: null });
    expect(standingCautions(new Course().admit(0).state(), minute(5), course.policy)).toEqual([]);
  });
});

describe('what a physician may not write', () => {
  const by = (course: Course, change: Partial<Payloads['prescribed']>) => {
    const { items, limits, acute, note, reviewBy } = course.state().prescription!;
    return codes(course, 'prescribed', { items, limits, acute, note, reviewBy, ...change }, 10, {
      role: 'nephrologist',
    });
  };
  it('a limit of what may be inside below the largest fill', () => {
    const course = strongCourse();
    const { limits } = course.state().prescription!;
    expect(by(course, { limits: { ...limits, mostInsideMl: 2000 } })).toEqual([]);
    expect(by(course, { limits: { ...limits, mostInsideMl: 1999 } })).toEqual(['below-fill']);
  });
  it('a review further ahead than the ward allows: 90 days, a hold 72 hours', () => {
    const course = strongCourse();
    expect(by(course, { reviewBy: minute(10 + 90 * DAY) })).toEqual([]);
    expect(by(course, { reviewBy: minute(10 + 90 * DAY) + 1 })).toEqual(['too-far-ahead']);
    const held = (reviewBy: number) =>
      codes(course, 'held', { reason: 'leak', reviewBy }, 10, { role: 'nephrologist' });
    expect(held(minute(10 + 3 * DAY))).toEqual([]);
    expect(held(minute(10 + 3 * DAY) + 1)).toEqual(['too-far-ahead']);
  });
  it('icodextrin in rapid cycles', () => {
    const course = strongCourse(undefined, 'icodextrin-7.5');
    const [item] = course.state().prescription!.items;
    const dwell = { by: 'cycle', fillMinutes: 10, dwellMinutes: 40, drainMinutes: 10 } as const;
    expect(by(course, { items: [{ ...item!, dwell }] })).toEqual(['icodextrin-in-cycles']);
  });
});
