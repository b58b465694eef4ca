import { describe, expect, it } from 'vitest';
import { conditionsAt } from '../alert/rules.ts';
import { judge } from '../exchange/judge.ts';
import type { Draft, Payloads } from '../record/entry.ts';
import { LONDON } from '../testing/bedside.ts';
import { Course, minute, PATIENT } from '../testing/course.ts';
import { dwellMinutesOfDrain, workUpToOpen } from './opens-work-up.ts';
import { openWorkUp, type WorkUp } from './work-up.ts';
import { sampleAdvice, standingOf } from './work-up-standing.ts';
import { ADVICE_WORDS, courseWords, standingWords } from './work-up-words.ts';

/** Filled at 08:20, drained at 12:25 after a dwell of 4 h 05 min; it looks as it is said to. */
function drained(appearance: Payloads['appearance']['appearance'] = ['cloudy']): Course {
  const course = new Course().admit(0).firstFill(7, 2000);
  course.drainOnly(260, 2100);
  course.write('appearance', { drain: 1, appearance, note: null }, 270);
  return course;
}

function open(course: Course, minutes: number): string {
  const opening = workUpToOpen(course.state());
  if (opening === null) throw new Error('No work-up is to be opened.');
  return course.write('workUpOpened', opening, minutes, { visitId: null, author: null }).id;
}

const sample = (workUpId: string): Payloads['sampleTaken'] => ({
  workUpId,
  tests: ['cellCount', 'gramStain', 'culture'],
  drainId: null,
  dwellMinutes: 245,
  bottles: 2,
  beforeAntibiotic: true,
  bagKeptWhere: 'sluice, shelf 2',
  note: null,
});
const report = (workUpId: string, change: Partial<Payloads['resultReported']>): Payloads['resultReported'] => ({
  workUpId,
  sampleId: null,
  whiteCells: null,
  polymorphPercent: null,
  gramStain: null,
  culture: null,
  note: null,
  ...change,
});
const close = (workUpId: string, conclusion: Payloads['workUpClosed']['conclusion']) => ({
  workUpId,
  conclusion,
  reason: 'as Dr Solberg said',
});

const workUpOf = (course: Course): WorkUp => course.state().workUps[0]!;
const standing = (course: Course) => standingOf(workUpOf(course), course.state().comforts);
const words = (course: Course) => standingWords(standing(course), LONDON.zone);

describe('a work-up', () => {
  it.each([
    ['cloudy', true],
    ['milky', true],
    ['brown', true],
    ['green', true],
    ['clear', false],
    ['pink', false],
    ['fibrin', false],
    ['bloody', false],
  ] as const)('of a %s drain is opened: %s', (appearance, opens) => {
    expect(workUpToOpen(drained([appearance]).state()) !== null).toBe(opens);
  });

  it('takes the dwell from the record, and is opened once', () => {
    const course = drained();
    open(course, 271);
    expect(workUpOf(course)).toMatchObject({ dwellMinutes: 245, appearance: ['cloudy'], closed: null });
    expect(workUpToOpen(course.state())).toBeNull();
  });

  it('speaks for the cloudy drains that follow, which are no new alarm', () => {
    const course = drained();
    const id = open(course, 271);
    course.write('close', { leftEmpty: true }, 280);
    course.firstFill(290, 2000);
    course.drainOnly(550, 2100);
    course.write('appearance', { drain: 1, appearance: ['cloudy'], note: null }, 560);
    const cloudy = () =>
      conditionsAt(course.state(), minute(600), LONDON).filter(({ kind }) => kind === 'effluentCloudy').length;
    expect(cloudy()).toBe(1);
    course.write('workUpClosed', close(id, 'peritonitis'), 555, { visitId: null });
    expect(workUpToOpen(course.state())).toBeNull();
  });

  it('of a drain that is cloudy again after a clear one is a new one, also after a peritonitis', () => {
    const course = drained();
    course.write('workUpClosed', close(open(course, 271), 'peritonitis'), 275, { visitId: null });
    let now = 280;
    course.write('close', { leftEmpty: true }, now);
    for (const appearance of ['cloudy', 'clear', 'cloudy'] as const) {
      course.firstFill(now + 10, 2000);
      course.drainOnly(now + 270, 2100);
      course.write('appearance', { drain: 1, appearance: [appearance], note: null }, now + 280);
      course.write('close', { leftEmpty: true }, now + 290);
      now += 300;
      expect(workUpToOpen(course.state()) !== null, `${appearance} at ${now}`).toBe(now === 1180);
    }
  });

  it('counts a sample of minutes before the tool opened it', () => {
    const course = drained();
    const id = open(course, 275);
    course.write('sampleTaken', sample(id), 272, { visitId: null });
    expect(workUpOf(course)).toMatchObject({ openedAt: minute(275), samples: [{ at: minute(272) }] });
  });
});

describe('how it stands', () => {
  it('fills up as the results come', () => {
    const course = drained();
    const id = open(course, 271);
    expect(words(course)).toBe('1 of 2 criteria: cloudy effluent; no sample taken');
    course.write('sampleTaken', sample(id), 280, { visitId: null });
    expect(words(course)).toBe('1 of 2 criteria: cloudy effluent; results awaited since 12:40');
    const count = { whiteCells: { value: 0.48, unit: '10*9/L' }, polymorphPercent: 82 } as const;
    course.write('resultReported', report(id, count), 400, { visitId: null });
    expect(words(course)).toBe('Peritonitis by 2 of 3 criteria: cloudy effluent, cells; culture awaited since 12:40');
    const grown = { culture: { state: 'grown', organisms: ['Staphylococcus epidermidis'] } } as const;
    course.write('resultReported', report(id, grown), 2000, { visitId: null });
    expect(words(course)).toBe('Peritonitis by 3 of 3 criteria: cloudy effluent, cells, culture');
  });

  // 100/µL = 100 × 10⁶/L = 0.1 × 10⁹/L; the 2022 guideline once printed 100 × 10⁹/L (corrected in 2024).
  it.each([
    [101, '/uL', 'met'],
    [100, '/uL', 'notMet'],
    [101, '10*6/L', 'met'],
    [0.1, '10*9/L', 'notMet'],
    [0.101, '10*9/L', 'met'],
    [0.1, '10*3/uL', 'notMet'],
  ] as const)('white cells %f %s with 60 percent polymorphs after 4 h: %s', (value, unit, expected) => {
    const course = drained();
    const id = open(course, 271);
    course.write('sampleTaken', sample(id), 280, { visitId: null });
    course.write('resultReported', report(id, { whiteCells: { value, unit }, polymorphPercent: 60 }), 400);
    expect(standing(course).criteria.cells).toBe(expected);
  });

  it('is not peritonitis by the criteria with few cells and no growth', () => {
    const course = drained();
    const id = open(course, 271);
    course.write('sampleTaken', sample(id), 280, { visitId: null });
    const few = {
      whiteCells: { value: 40, unit: '/uL' },
      polymorphPercent: 20,
      culture: { state: 'sterile' },
    } as const;
    course.write('resultReported', report(id, few), 400, { visitId: null });
    expect(words(course)).toBe('Not peritonitis by these criteria, 1 of 2 met: cloudy effluent');
  });

  it('is not unsaid by a later, falling count', () => {
    const course = drained();
    const id = open(course, 271);
    course.write('sampleTaken', sample(id), 280, { visitId: null });
    for (const [value, minutes] of [
      [900, 400],
      [60, 4000],
    ] as const) {
      const count = { whiteCells: { value, unit: '/uL' as const }, polymorphPercent: 70 };
      course.write('resultReported', report(id, count), minutes, { visitId: null });
    }
    expect(standing(course).criteria.cells).toBe('met');
  });

  it('says nothing of pain that nobody asked for', () => {
    const course = drained(['milky']);
    open(course, 271);
    expect(standing(course).findings).toMatchObject({ pain: null, cloudy: null });
  });
});

describe('the counts of days 3 and 5, the day of opening being day 1', () => {
  const said = (value: number, day: number) => {
    const course = drained();
    const id = open(course, 271);
    const at = 271 + (day - 1) * 24 * 60;
    course.write('sampleTaken', sample(id), at, { visitId: null });
    course.write('resultReported', report(id, { whiteCells: { value, unit: '/uL' }, polymorphPercent: 70 }), at + 60);
    return courseWords(workUpOf(course), standing(course).counts, LONDON.zone).join(' ');
  };
  it('day 3: 1,090 and more (Chow, CJASN 2006;1:768)', () => {
    expect(said(1090, 3)).toContain('nine times');
    expect(said(1089, 3)).toContain('under 1,090');
  });
  it('day 5: 5.7, 26.9 and 46.7 of 100 failed (cohort of 549 episodes)', () => {
    expect([said(99, 5), said(100, 5), said(2000, 5)].map((text) => /in ([\d.]+) of 100/.exec(text)?.[1])).toEqual([
      '5.7',
      '26.9',
      '46.7',
    ]);
  });
  it('other days say nothing', () => expect(said(5000, 4)).toBe(''));
});

describe('a sample', () => {
  it('of a short dwell, of an unknown one, of an empty cavity is told how it is judged or taken', () => {
    expect([
      sampleAdvice(120, false),
      sampleAdvice(119, false),
      sampleAdvice(null, false),
      sampleAdvice(300, true),
    ]).toEqual(['asItIs', 'shortDwell', 'dwellNotKnown', 'emptyCavity']);
    expect(ADVICE_WORDS.emptyCavity).toContain('run in 1 L');
  });
});

describe('the alert that a work-up waits', () => {
  const kinds = (course: Course, minutes: number) =>
    conditionsAt(course.state(), minute(minutes), LONDON)
      .filter(({ kind }) => kind === 'workUpWaiting')
      .map(({ rank, facts }) => `${rank} ${facts.forWhat}`);
  it('without a sample after an hour, without a count six hours after it, and ends with each', () => {
    const course = drained();
    const id = open(course, 271);
    expect([kinds(course, 330), kinds(course, 331)]).toEqual([[], ['medium sample']]);
    course.write('sampleTaken', sample(id), 280, { visitId: null });
    expect([kinds(course, 331), kinds(course, 639), kinds(course, 640)]).toEqual([[], [], ['low count']]);
    course.write('resultReported', report(id, { whiteCells: { value: 9, unit: '/uL' }, polymorphPercent: 9 }), 500);
    expect(kinds(course, 640)).toEqual([]);
  });
});

describe('the judge', () => {
  const problems = (course: Course, kind: Draft['kind'], payload: unknown, role: 'nurse' | 'nephrologist' = 'nurse') =>
    judge(
      course.state(),
      { kind, payload, visitId: null, patientId: PATIENT, happenedAt: minute(500) } as unknown as Draft,
      { now: minute(500), policy: LONDON, actor: { accountId: 'somebody', role } },
    ).map(({ code, field }) => `${code} ${field}`);

  it('takes samples and results from nurses, a conclusion from those who may', () => {
    const course = drained();
    const id = open(course, 271);
    expect(problems(course, 'sampleTaken', sample(id))).toEqual([]);
    expect(problems(course, 'resultReported', report(id, { note: 'a clot in the tube' }))).toEqual([]);
    expect(problems(course, 'workUpClosed', close(id, 'other'))).toEqual(['not-permitted kind']);
    expect(problems(course, 'workUpClosed', close(id, 'other'), 'nephrologist')).toEqual([]);
  });

  it('refuses another dwell than the record has for that drain', () => {
    const course = drained();
    const id = open(course, 271);
    const { drainId } = workUpOf(course);
    expect(dwellMinutesOfDrain(course.state(), drainId)).toBe(245);
    expect(problems(course, 'sampleTaken', { ...sample(id), drainId, dwellMinutes: 60 })).toEqual([
      'dwell-differs payload.dwellMinutes',
    ]);
  });

  it('refuses an empty report, a share without its count, and a count a thousand times too high', () => {
    const course = drained();
    const id = open(course, 271);
    expect(problems(course, 'resultReported', report(id, {}))).toEqual(['missing payload.whiteCells']);
    expect(problems(course, 'resultReported', report(id, { polymorphPercent: 80 }))).toEqual([
      'missing payload.whiteCells',
    ]);
    const unlikely = { whiteCells: { value: 1001, unit: '10*9/L' }, polymorphPercent: 80 } as const;
    expect(problems(course, 'resultReported', report(id, unlikely))).toEqual([
      'out-of-range payload.whiteCells.value in cells/µL',
    ]);
  });

  it('adds to a concluded one only where peritonitis was found, and concludes once', () => {
    const course = drained();
    const id = open(course, 271);
    course.write('workUpClosed', close(id, 'peritonitis'), 300, { visitId: null });
    expect(openWorkUp(course.state().workUps)).toBeNull();
    expect(problems(course, 'sampleTaken', sample(id))).toEqual([]);
    expect(problems(course, 'workUpClosed', close(id, 'other'), 'nephrologist')).toEqual([
      'work-up-closed payload.workUpId',
    ]);
    expect(problems(course, 'sampleTaken', sample('another'))).toEqual(['no-such-work-up payload.workUpId']);
  });
});
