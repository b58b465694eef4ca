import { describe, expect, it } from 'vitest';
import { judge } from '../exchange/judge.ts';
import type { Draft, EntryKind, Payloads } from '../record/entry.ts';
import { LONDON } from '../testing/bedside.ts';
import { Course, minute, PATIENT } from '../testing/course.ts';
import { rowOf } from '../testing/row.ts';
import { wallRow } from '../ward/row.ts';
import { fluidTakenOver, fluidToTell, sameFluid } from './fluid-handover.ts';

const holding = () => new Course().admit(0).firstFill(10, 2000);

const wrong = <K extends EntryKind>(course: Course, kind: K, payload: Payloads[K], minutes = 60) => {
  const draft = { kind, payload, visitId: null, patientId: PATIENT, happenedAt: minute(minutes) } as unknown as Draft;
  const actor = { accountId: 'adair', role: 'chargeNurse' } as const;
  return judge(course.state(), draft, { now: minute(minutes), policy: LONDON, actor });
};

const transfer = (course: Course, minutes: number, toWhom: string | null = 'Nadia Marsh') => {
  const said = fluidToTell(course.state());
  const told = toWhom === null || said === null ? {} : { fluid: { toWhom, said } };
  const at = { visitId: null };
  course.write('transferredOut', { toWardId: 'osprey', ...told }, minutes, { ...at, author: 'adair' });
  course.write('transferredIn', { fromWardId: 'kestrel', bed: '2' }, minutes, { ...at, wardId: 'osprey' });
  return course;
};

describe('what is told of the fluid inside', () => {
  it('is volume, strength, time and when it is due', () => {
    expect(fluidToTell(holding().state())).toEqual({
      cavity: 'holding',
      since: minute(23),
      fills: [{ solutionId: 'glucose-2.27', filledMl: 2000, endedAt: minute(23), additives: [] }],
      leftMl: { flow: 200, book: 200 },
      drainDueAt: minute(263),
    });
  });
  it('says what is not known, and never a zero in its place', () => {
    const handed = { cavity: 'holding', solutionId: null, filledMl: null, fillEndedAt: null } as const;
    expect(fluidToTell(new Course().admit(0, handed).state())).toMatchObject({
      cavity: 'holding',
      fills: [{ solutionId: null, filledMl: null, endedAt: null }],
      leftMl: { flow: null, book: null },
    });
    expect(fluidToTell(new Course().admit(0, { cavity: 'notKnown' }).state())).toMatchObject({
      cavity: 'unknown',
      fills: [],
      leftMl: { flow: null, book: null },
    });
  });
  it('is nothing of an empty cavity', () => {
    expect(fluidToTell(new Course().admit(0).state())).toBeNull();
  });
});

describe('leaving with fluid inside', () => {
  const said = (course: Course) => fluidToTell(course.state())!;
  const codes = (...args: Parameters<typeof wrong>) => wrong(...args).map(({ code, field }) => `${code} ${field}`);

  it.each(['discharged', 'transferredOut'] as const)('%s is refused until somebody with a name was told', (kind) => {
    const course = holding();
    const rest = kind === 'discharged' ? { to: 'home', handover: null } : { toWardId: 'osprey' };
    expect(codes(course, kind, rest as never)).toEqual(['fluid-not-handed-over payload.fluid']);
    expect(codes(course, kind, { ...rest, fluid: { toWhom: ' ', said: said(course) } } as never)).toEqual([
      'missing payload.fluid.toWhom',
    ]);
    expect(codes(course, kind, { ...rest, fluid: { toWhom: 'Nadia Marsh', said: said(course) } } as never)).toEqual([]);
  });
  it('is refused where something else was told than is in the record', () => {
    const course = holding();
    const told = said(course);
    for (const other of [
      { ...told, drainDueAt: minute(300) },
      { ...told, fills: [{ ...told.fills[0]!, filledMl: 1500 }] },
      { ...told, fills: [{ ...told.fills[0]!, filledMl: null }] },
      { ...told, leftMl: { ...told.leftMl, book: 0 } },
    ]) {
      const fluid = { toWhom: 'Nadia Marsh', said: other };
      expect(codes(course, 'discharged', { to: 'home', handover: null, fluid })).toEqual([
        'fluid-changed payload.fluid.said',
      ]);
    }
  });
  it('where nobody knows what is inside, that is told', () => {
    const course = new Course().admit(0, { cavity: 'notKnown' });
    expect(codes(course, 'discharged', { to: 'home', handover: null })).toEqual([
      'fluid-not-handed-over payload.fluid',
    ]);
    const fluid = { toWhom: 'Nadia Marsh', said: said(course) };
    expect(codes(course, 'discharged', { to: 'home', handover: null, fluid })).toEqual([]);
  });
  it('of an empty cavity nothing is asked, and nothing can be told', () => {
    const course = new Course().admit(0);
    expect(codes(course, 'discharged', { to: 'home', handover: null })).toEqual([]);
    const fluid = { toWhom: 'Nadia Marsh', said: said(holding()) };
    expect(codes(course, 'discharged', { to: 'home', handover: null, fluid })).toEqual([
      'nothing-inside payload.fluid',
    ]);
  });
  it('the order of fields makes no other fluid', () => {
    const told = said(holding());
    expect(
      sameFluid(
        told,
        JSON.parse(
          JSON.stringify(
            told,
            Object.keys(told)
              .sort()
              .reverse()
              .concat(['solutionId', 'filledMl', 'endedAt', 'additives', 'flow', 'book']),
          ),
        ),
      ),
    ).toBe(true);
  });
});

describe('on the other ward', () => {
  it('the row says who was told, until the fluid is drained', () => {
    const course = transfer(holding(), 60);
    expect(rowOf(course.state()).fluidHandover).toEqual({ at: minute(60), toWhom: 'Nadia Marsh' });
    expect(fluidTakenOver(course.state())).toMatchObject({
      changedSince: false,
      handover: { to: { ward: 'osprey' }, by: 'adair', said: { fills: [{ filledMl: 2000 }] } },
    });
    course.prepare(255, { purpose: 'drainOnly', bag: null, bagChecks: null });
    course.write('connect', {}, 258);
    expect(fluidTakenOver(course.state())).toMatchObject({ changedSince: false });
    course.write('startDrain', {}, 260);
    expect(rowOf(course.state()).fluidHandover).toBeNull();
  });
  it('whichever of its two entries is folded first, it is the same', () => {
    const course = transfer(holding(), 60);
    const before = course.state();
    const [out, into] = course.entries.slice(-2) as [(typeof course.entries)[0], (typeof course.entries)[0]];
    course.entries.splice(-2, 2, { ...into, position: out.position }, { ...out, position: into.position });
    expect(course.state().fluidHandover).toEqual(before.fluidHandover);
  });
  it('what is put right afterwards is said to have changed since', () => {
    const course = transfer(holding(), 60);
    const fill = course.entries.find(({ kind }) => kind === 'endFill')!;
    const payload = { infused: { basis: 'stated', volumeMl: 1600 } };
    const corrected = { target: fill.id, reason: 'read wrongly', payload, happenedAt: fill.happenedAt };
    course.write('corrected', corrected, 70);
    expect(fluidTakenOver(course.state())).toMatchObject({ changedSince: true });
  });
  it('an empty cavity brings no handover along', () => {
    expect(transfer(new Course().admit(0), 60).state().fluidHandover).toBeNull();
  });
  it('the wall names nobody who was told', () => {
    const wall = wallRow(rowOf(transfer(holding(), 60).state()));
    expect(JSON.stringify(wall)).not.toContain('Marsh');
  });
});

it('a discharge keeps what was told until the next admission', () => {
  const course = holding();
  const fluid = { toWhom: 'the nurse of the home visit', said: fluidToTell(course.state())! };
  course.write('discharged', { to: 'home', handover: null, fluid }, 60, { visitId: null });
  expect(course.state()).toMatchObject({ stay: null, fluidHandover: { to: { place: 'home' }, ...fluid } });
  // On no ward nothing falls due any more: that is no change of what was told.
  expect(fluidTakenOver(course.state())).toMatchObject({ changedSince: false });
  course.admit(600);
  expect(course.state().fluidHandover).toBeNull();
});
