import { describe, expect, it } from 'vitest';
import { Course, minute, PATIENT } from '../testing/course.ts';
import { fold } from './fold.ts';

describe('the cavity', () => {
  it('is not known before anything is recorded, and after an admission that does not know', () => {
    expect(new Course().state().cavity.state).toBe('unknown');
    expect(new Course().admit(0, { cavity: 'notKnown' }).state().cavity).toEqual({
      state: 'unknown',
      since: minute(0),
    });
  });

  it('holds what was handed over, from when it was filled', () => {
    const handed = {
      cavity: 'holding',
      solutionId: 'glucose-1.36',
      filledMl: 1800,
      fillEndedAt: minute(-120),
    } as const;
    const state = new Course().admit(0, handed).state();
    expect(state.cavity).toMatchObject({ state: 'holding', since: minute(-120), fills: [{ filledMl: 1800 }] });
    expect(state.inside.bookMl).toBe(200);
  });

  it('goes round: empty, filled, drained, filled again', () => {
    const course = new Course().admit(0);
    expect(course.state().cavity.state).toBe('empty');
    course.firstFill(10, 2000);
    expect(course.state().cavity).toMatchObject({ state: 'holding', since: minute(23) });
    course.exchange(260, 2340, 2000);
    const state = course.state();
    expect(state.cavity).toMatchObject({ state: 'holding', since: minute(288), fills: [{ filledMl: 2000 }] });
    expect(state.lastDwells[0]).toMatchObject({
      filledMl: 2000,
      drainedMl: 2340,
      drainMinusFillMl: 340,
      complete: true,
    });
    expect(state.due?.dueAt).toBe(minute(288 + 240));
  });

  it('is empty after drain only when the drain is complete', () => {
    const course = new Course().admit(0).firstFill(10, 2000).drainOnly(260, 2300);
    course.write('close', { leftEmpty: true }, 280);
    expect(course.state().cavity).toEqual({ state: 'empty', since: minute(278) });
  });

  it('still holds after drain only when the flow was ended while it ran, and is still to be drained', () => {
    const course = new Course().admit(0).firstFill(10, 2000).drainOnly(260, 1500, 'notStopped');
    course.write('close', { leftEmpty: false }, 280);
    const { cavity, due } = course.state();
    expect(cavity).toMatchObject({ state: 'holding', since: minute(23) });
    expect(due?.what).toBe('drain');
  });

  it('still holds when the drain was short or not measured', () => {
    for (const drainedMl of [1500, null]) {
      const course = new Course().admit(0).firstFill(10, 2000).drainOnly(260, drainedMl);
      expect(course.state().cavity.state, String(drainedMl)).toBe('holding');
    }
  });

  it('is empty when a person confirms it, and the figures start anew', () => {
    const course = new Course().admit(0).firstFill(10, 2000).drainOnly(260, 1500);
    course.write('cavityConfirmedEmpty', { reason: 'imaging', note: '' }, 285);
    const { cavity, inside } = course.state();
    expect(cavity).toEqual({ state: 'empty', since: minute(285) });
    expect(inside).toMatchObject({ bookMl: 200, flowMl: 200 });
  });

  it('that was not known is empty only by a person, even after a drain that ran to a stop', () => {
    const course = new Course().admit(0, { cavity: 'notKnown' }).drainOnly(10, 2100);
    expect(course.state().cavity.state).toBe('unknown');
    expect(course.state().inside.bookMl).toBeNull();
    course.write('cavityConfirmedEmpty', { reason: 'physician', note: '' }, 60);
    expect(course.state().cavity.state).toBe('empty');
  });
});

describe('a visit', () => {
  it('may drain again: both drains are one dwell', () => {
    const course = new Course().admit(0).firstFill(10, 2000).drainOnly(260, 1500);
    course.drain(285, 292, 800);
    const { openDwell, cavity } = course.state();
    expect(openDwell).toMatchObject({ drainedMl: 2300, drainMinusFillMl: 300, complete: true, drainedAt: minute(292) });
    expect(cavity.state).toBe('empty');
  });

  it('may use a second bag: both fills are one dwell', () => {
    const course = new Course().admit(0);
    course.prepare(10, { purpose: 'fillOnly' });
    course.write('connect', {}, 12);
    course.fill(14, 22, 1200).fill(24, 28, 800);
    expect(course.state().cavity).toMatchObject({ since: minute(22), fills: [{ filledMl: 1200 }, { filledMl: 800 }] });
  });

  it('that was stopped in its fill keeps what went in, and the resumed one adds to it', () => {
    const course = new Course().admit(0);
    course.prepare(10, { purpose: 'fillOnly' });
    course.write('connect', {}, 12);
    course.startFill(14);
    const infused = { basis: 'stated', volumeMl: 700 } as const;
    course.write('stop', { reason: 'calledAway', note: null, infused, contamination: null }, 18);
    expect(course.state()).toMatchObject({ visit: null, cavity: { fills: [{ filledMl: 700 }] } });
    course.write('resume', {}, 30);
    course.fill(32, 40, 1300);
    expect(course.state()).toMatchObject({ visit: { state: 'closing' }, cavity: { fills: [{}, { filledMl: 1300 }] } });
  });

  it('that was stopped in its fill before anything went in leaves the cavity empty', () => {
    const course = new Course().admit(0);
    course.prepare(10, { purpose: 'fillOnly' });
    course.write('connect', {}, 12);
    course.startFill(14);
    const infused = { basis: 'stated', volumeMl: 0 } as const;
    course.write('stop', { reason: 'leak', note: null, infused, contamination: null }, 15);
    expect(course.state().cavity.state).toBe('empty');
  });

  it('that was stopped in its drain leaves the fluid inside', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    course.prepare(260);
    course.write('connect', {}, 262);
    course.write('startDrain', {}, 264);
    course.write('stop', { reason: 'pain', note: null, infused: null, contamination: null }, 270);
    const { cavity, lastDwells } = course.state();
    expect(cavity.state).toBe('holding');
    expect(lastDwells[0]?.drains[0]).toMatchObject({ flow: 'notStopped', endedAt: minute(270) });
  });

  it('counts a later look beside the first one: what was cloudy does not become clear', () => {
    const course = new Course().admit(0).firstFill(10, 2000).drainOnly(260, 2300);
    course.write('appearance', { drain: 1, appearance: ['cloudy'], note: null }, 266);
    course.write('appearance', { drain: 1, appearance: ['clear', 'fibrin'], note: null }, 270);
    expect(course.state().visit?.drains[0]?.appearance).toEqual(['cloudy', 'fibrin']);
  });
});

describe('a measure', () => {
  it('that is exact replaces the reading in every sum, also two visits later', () => {
    const course = new Course().admit(0).firstFill(10, 2000).exchange(260, 2300, 2000);
    const visitId = course.entries.at(-1)!.visitId;
    course.exchange(540, 2350, 2000).exchange(820, 2350, 2000);
    const before = course.state();
    course.measure(860, 1, 'exact', 2200, { visitId });
    const after = course.state();
    expect(before.stayBalance.removedMl - after.stayBalance.removedMl).toBe(100);
    expect(after.inside.bookMl! - before.inside.bookMl!).toBeCloseTo(100, 9);
    expect(after.lastDwells.at(-1)).toMatchObject({ drainedMl: 2200, drains: [{ readingMl: 2300, exactMl: 2200 }] });
  });

  it('that is missing stands as missing in the balance, not as zero', () => {
    const course = new Course().admit(0).firstFill(10, 2000).exchange(260, null, 2000);
    const { stayBalance, inside } = course.state();
    expect(stayBalance).toMatchObject({ removedMl: 0, exchanges: 1, missing: [{ at: minute(278), what: 'drain' }] });
    expect(inside.bookMl).toBeNull();
  });
});

describe('corrections', () => {
  it('put the corrected payload and time in the place of the original', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    const wrong = course.entries.find((entry) => entry.kind === 'endFill')!;
    const payload = { infused: { basis: 'stated', volumeMl: 1900 } };
    course.write('corrected', { target: wrong.id, reason: 'misread', payload, happenedAt: minute(25 - 1) }, 60);
    expect(course.state().cavity).toMatchObject({ since: minute(24), fills: [{ entryId: wrong.id, filledMl: 1900 }] });
  });

  it('of a correction count in its stead, and a retracted correction does not count', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    const wrong = course.entries.find((entry) => entry.kind === 'endFill')!;
    const correct = (target: string, volumeMl: number) =>
      course.write(
        'corrected',
        {
          target,
          reason: 'misread',
          payload: { infused: { basis: 'stated', volumeMl } },
          happenedAt: wrong.happenedAt,
        },
        60,
      );
    const first = correct(wrong.id, 1900);
    const second = correct(first.id, 1800);
    expect(course.state().cavity).toMatchObject({ fills: [{ filledMl: 1800 }] });
    course.write('retracted', { target: second.id, reason: 'was right', enteredAs: null }, 61);
    expect(course.state().cavity).toMatchObject({ fills: [{ filledMl: 1900 }] });
  });

  it('leave a retracted entry out as if it had never been', () => {
    const course = new Course().admit(0);
    const before = course.state();
    const weight = course.write('weight', { weightKg: 70, cavity: 'empty' }, 5);
    course.write('retracted', { target: weight.id, reason: 'wrong patient', enteredAs: null }, 6);
    expect(course.state()).toEqual(before);
  });
});

describe('the record over wards and time', () => {
  it('keeps what is inside through a transfer', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    const inside = course.state().cavity;
    course.write('transferredOut', { toWardId: 'osprey' }, 60);
    course.write('transferredIn', { fromWardId: 'kestrel', bed: '2' }, 60, { wardId: 'osprey' });
    expect(course.state()).toMatchObject({
      cavity: inside,
      stay: { wardId: 'osprey', bed: '2', admittedAt: minute(0) },
    });
  });

  it('takes a late whole visit into the gap between two recorded ones', () => {
    const inOrder = new Course().admit(0).firstFill(10, 2000).exchange(260, 2300, 2000).exchange(540, 2350, 2000);
    const late = new Course().admit(0).firstFill(10, 2000).exchange(540, 2350, 2000).exchange(260, 2300, 2000);
    const sums = ({ stayBalance, inside, cavity }: ReturnType<Course['state']>) => ({
      removedMl: stayBalance.removedMl,
      bookMl: inside.bookMl,
      since: cavity.since,
    });
    expect(sums(late.state())).toEqual(sums(inOrder.state()));
  });

  it('takes imported history as dwells, with every missing volume named', () => {
    const course = new Course();
    const row = (minutes: number, drainedMl: number | null, filledMl: number | null) =>
      course.write(
        'imported',
        {
          drainStartedAt: minute(minutes),
          drainEndedAt: minute(minutes + 15),
          drainedMl,
          appearance: ['clear'],
          fillStartedAt: minute(minutes + 16),
          fillEndedAt: minute(minutes + 25),
          filledMl,
          solutionId: 'glucose-2.27',
          note: null,
        },
        minutes + 25,
      );
    row(0, 1900, 2000);
    row(240, 2300, 2000);
    row(480, null, 2000);
    const { dwells, state } = fold(PATIENT, course.entries, course.policy);
    expect(dwells.map((dwell) => [dwell.filledMl, dwell.drainedMl, dwell.drainMinusFillMl, dwell.imported])).toEqual([
      [null, 1900, null, true],
      [2000, 2300, 300, true],
      [2000, null, null, true],
    ]);
    expect(new Set(dwells.map((dwell) => dwell.id)).size).toBe(3);
    expect(state.cavity).toMatchObject({ state: 'holding', since: minute(505) });
  });

  it('starts a new day where the newest dwell lies beyond the last one, and keeps the stay whole', () => {
    const course = new Course().admit(0).firstFill(10, 2000).exchange(260, 2300, 2000).exchange(1500, 2350, 2000);
    const { day, stayBalance } = course.state();
    expect(day).toMatchObject({ removedMl: 350, exchanges: 1 });
    expect(stayBalance).toMatchObject({ removedMl: 650, exchanges: 2 });
  });
});

describe('orders', () => {
  it('to drain now end with the drain that they asked for', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    course.write('ordered', { content: { what: 'drainNow' }, note: null, telephone: null }, 100);
    expect(course.state().due?.dueAt).toBe(minute(100));
    course.drainOnly(105, 2100);
    expect(course.state().orders).toEqual([]);
  });

  it('by telephone stay to be countersigned after they were carried out', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    const telephone = { physician: 'Dr Invented', readBack: true } as const;
    const order = course.write('ordered', { content: { what: 'drainNow' }, note: null, telephone }, 100);
    course.drainOnly(105, 2100);
    expect(course.state()).toMatchObject({ orders: [], awaitingCountersign: [{ id: order.id }] });
    course.write('countersigned', { orderId: order.id }, 200, { author: 'physician' });
    expect(course.state().awaitingCountersign).toEqual([]);
  });
});
