import { describe, expect, it } from 'vitest';
import type { Role } from '../access/roles.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { EntryKind, Payloads } from '../record/entry.ts';
import { Course, fillPayload, minute, preparePayload } from '../testing/course.ts';
import { judged } from '../testing/judged.ts';
import { isStep } from './steps.ts';

type Over = { at?: number; role?: Role; visitId?: string | null; now?: number };

/** The codes of everything that is wrong with an entry at a minute of the course. */
function wrong<K extends EntryKind>(course: Course, kind: K, payload: Payloads[K], over: Over = {}): readonly string[] {
  return problems(course, kind, payload, over).map((problem) => problem.code);
}

function problems<K extends EntryKind>(course: Course, kind: K, payload: Payloads[K], over: Over = {}) {
  const state = course.state();
  const at = over.at ?? 10_000;
  const visitId = over.visitId === undefined ? visitFor(kind, state) : over.visitId;
  return judged(course, kind, payload, { ...over, at, visitId });
}

function visitFor(kind: EntryKind, state: BedsideState): string | null {
  if (kind === 'prepare') return 'new-visit';
  if (kind === 'resume') return state.lastVisit?.id ?? null;
  if (isStep(kind)) return state.visit?.id ?? 'none';
  return (state.visit ?? state.lastVisit)?.id ?? null;
}

const preparing = (change: Partial<Payloads['prepare']> = {}): [Course, Payloads['prepare']] => {
  const course = new Course().admit(0).firstFill(10, 2000);
  return [course, { ...preparePayload(course.state()), ...change }];
};

/** Drained and about to be filled: what came out decides. */
const drained = (drainedMl: number | null = 2300, flow: 'stopped' | 'notStopped' = 'stopped'): Course => {
  const course = new Course().admit(0).firstFill(10, 2000);
  course.prepare(260);
  course.write('connect', {}, 262);
  return course.drain(264, 280, drainedMl, flow);
};

const filling = (course: Course, change: Partial<Payloads['startFill']> = {}): Payloads['startFill'] => ({
  ...fillPayload(course.state()),
  ...change,
});

describe('times', () => {
  it('may lie two minutes ahead of the ward clock and no more', () => {
    const [course, prepare] = preparing();
    expect(wrong(course, 'prepare', prepare, { at: 302, now: 300 })).toEqual([]);
    expect(wrong(course, 'prepare', prepare, { at: 302.1, now: 300 })).toEqual(['in-the-future']);
  });

  it('of a step never lie before the last step; of an observation they may', () => {
    const course = drained();
    expect(wrong(course, 'startFill', filling(course), { at: 279 })).toEqual(['before-the-last-step']);
    expect(wrong(course, 'weight', { weightKg: 70, cavity: 'empty' }, { at: 5 })).toEqual([]);
  });
});

describe('times before the stay', () => {
  const day = 24 * 60;
  const weight = { weightKg: 70, cavity: 'empty' } as const;

  it('may be told of up to a day before the admission and no more (common practice)', () => {
    const course = new Course().admit(2 * day).firstFill(2 * day + 10, 2000);
    const now = 3 * day;
    expect(wrong(course, 'weight', weight, { at: day, now })).toEqual([]);
    expect(wrong(course, 'weight', weight, { at: day - 1, now })).toEqual(['before-the-stay']);
  });

  it('may be told of years before where it is about the catheter or dialysis itself', () => {
    const course = new Course().admit(0);
    const inserted = { event: 'inserted', note: null, breakInLimitMl: null, breakInUntil: null, breakInPosture: null };
    expect(wrong(course, 'catheter', inserted as Payloads['catheter'], { at: -900 * day, now: 10 })).toEqual([]);
    const started = { event: 'started', modality: 'chronic', note: null } as const;
    expect(wrong(course, 'dialysisPeriod', started, { at: -900 * day, now: 10 })).toEqual([]);
  });
});

describe('who may', () => {
  it('record: the nurse, and not the manager or the wall', () => {
    const [course, prepare] = preparing();
    expect(wrong(course, 'prepare', prepare, { role: 'manager' })).toEqual(['not-permitted']);
    expect(wrong(course, 'prepare', prepare, { role: 'wall' })).toEqual(['not-permitted']);
  });

  it('order: the physician; the nurse only by telephone, read back', () => {
    const course = drained();
    const order = { content: { what: 'drainNow' }, note: null, telephone: null } as const;
    expect(wrong(course, 'ordered', order)).toEqual(['not-permitted']);
    expect(wrong(course, 'ordered', order, { role: 'nephrologist' })).toEqual([]);
    expect(wrong(course, 'ordered', { ...order, telephone: { physician: 'Dr Invented', readBack: true } })).toEqual([]);
  });
});

describe('prepare', () => {
  it('takes two identifiers', () => {
    const [course, prepare] = preparing({ identifiers: ['name', 'name'] });
    expect(wrong(course, 'prepare', prepare)).toEqual(['identifiers']);
  });

  it('takes the prescribed bag, also a larger one', () => {
    const [course, prepare] = preparing();
    expect(wrong(course, 'prepare', prepare)).toEqual([]);
    const larger = { ...prepare, bag: { ...prepare.bag!, labelledMl: 2500 } };
    expect(wrong(course, 'prepare', larger)).toEqual([]);
  });

  it('stops at another solution or too small a bag; going on takes the role and a reason, or an order', () => {
    const [course, prepare] = preparing();
    const bag = { ...prepare.bag!, solutionId: 'glucose-1.36' };
    const other = { ...prepare, bag };
    expect(wrong(course, 'prepare', other)).toEqual(['bag-solution']);
    expect(wrong(course, 'prepare', { ...prepare, bag: { ...prepare.bag!, labelledMl: 1000 } })).toEqual([
      'bag-volume',
    ]);
    // a physician's word that nobody read back is no order
    const override = { reason: 'overloaded', physician: 'Dr Invented' };
    expect(wrong(course, 'prepare', { ...other, override })).toEqual(['bag-solution']);
    expect(wrong(course, 'prepare', { ...other, override }, { role: 'chargeNurse' })).toEqual([]);
    const noReason = { ...other, override: { reason: ' ', physician: null } };
    expect(wrong(course, 'prepare', noReason, { role: 'chargeNurse' })).toEqual(['bag-solution']);

    const content = { what: 'oneExchange', solutionId: bag.solutionId, fillMl: 2000, dwellMinutes: 240, additives: [] };
    const telephone = { physician: 'Dr Invented', readBack: true };
    const payload = { content, note: null, telephone } as Payloads['ordered'];
    expect(wrong(course, 'ordered', payload)).toEqual([]);
    const order = course.write('ordered', payload, 200);
    expect(wrong(course, 'prepare', { ...other, orderId: order.id })).toEqual([]);
  });

  it('stops at an expired bag: a nurse takes another one, a charge nurse may go on with a reason', () => {
    const [course, prepare] = preparing();
    const expired = { ...prepare, bag: { ...prepare.bag!, expiresOn: '2026-11-24' } };
    const override = { reason: 'the last bag; pharmacy agrees', physician: 'Dr Invented' };
    expect(wrong(course, 'prepare', expired)).toEqual(['bag-expired']);
    expect(wrong(course, 'prepare', { ...expired, override })).toEqual(['bag-expired']);
    expect(wrong(course, 'prepare', expired, { role: 'chargeNurse' })).toEqual(['bag-expired']);
    expect(wrong(course, 'prepare', { ...expired, override }, { role: 'chargeNurse' })).toEqual([]);
  });

  it('that was let through fills from the very bag that was checked, and from no other expired one', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    const bag = { ...preparePayload(course.state()).bag!, lot: 'A1', expiresOn: '2026-11-24' };
    course.prepare(260, { bag, override: { reason: 'the last bag', physician: null } });
    course.write('connect', {}, 262);
    course.drain(264, 280, 2300);
    expect(wrong(course, 'startFill', filling(course, { bag }))).toEqual([]);
    expect(wrong(course, 'startFill', filling(course, { bag: { ...bag, lot: 'A2' } }))).toEqual(['bag-expired']);
    expect(wrong(course, 'startFill', filling(course, { bag: { ...bag, expiresOn: '2026-11-23' } }))).toEqual([
      'bag-expired',
    ]);
  });

  it('that is expired as the second one of a visit is gone on with anew: by role, with a reason', () => {
    const course = drained();
    course.fill(282, 288, 1200);
    const bag = { ...preparePayload(course.state()).bag!, lot: 'A2', expiresOn: '2026-11-24' };
    const second = (bagOverride?: { reason: string; physician: null }) =>
      filling(course, { bag, prescribedMl: 800, ...(bagOverride && { bagOverride }) });
    const reason = { reason: 'the last bag of the ward', physician: null };
    expect(wrong(course, 'startFill', second())).toEqual(['bag-expired']);
    expect(wrong(course, 'startFill', second(reason))).toEqual(['bag-expired']);
    expect(wrong(course, 'startFill', second({ ...reason, reason: ' ' }), { role: 'chargeNurse' })).toEqual([
      'bag-expired',
    ]);
    expect(wrong(course, 'startFill', second(reason), { role: 'chargeNurse' })).toEqual([]);
  });

  it('never takes an unfit bag, by nobody’s word', () => {
    const override = { reason: 'none other', physician: 'Dr Invented' };
    const [course, prepare] = preparing({ override });
    for (const field of ['noLeak', 'clear', 'sealWhole'] as const) {
      const bagChecks = { ...prepare.bagChecks!, [field]: false };
      const unfit = { ...prepare, bagChecks };
      expect(wrong(course, 'prepare', unfit, { role: 'chargeNurse' }), field).toEqual(['bag-unfit']);
    }
  });

  it('of a new fill asks for a prescription in force that names the item', () => {
    const [course, prepare] = preparing();
    expect(wrong(course, 'prepare', { ...prepare, revisionId: 'older' })).toEqual(['not-prescribed']);
    course.write('held', { reason: 'breathless', reviewBy: minute(20_000) }, 100);
    expect(wrong(course, 'prepare', prepare)).toEqual(['on-hold']);
    const drainOnly = { ...prepare, purpose: 'drainOnly', bag: null, bagChecks: null } as const;
    expect(wrong(course, 'prepare', drainOnly)).toEqual([]);
  });

  it('of fill only starts from an empty cavity', () => {
    const [course, prepare] = preparing({ purpose: 'fillOnly' });
    expect(wrong(course, 'prepare', prepare)).toEqual(['not-empty']);
  });
});

describe('a step', () => {
  it('that the table does not allow is refused with the table’s own words', () => {
    const course = drained();
    expect(problems(course, 'connect', {})[0]).toMatchObject({
      code: 'connected-already',
      message: 'Already connected.',
    });
  });

  it('of another visit than the one at the bed is refused', () => {
    expect(wrong(drained(), 'close', { leftEmpty: true }, { visitId: 'other' })).toEqual(['another-visit']);
  });

  it('on a patient who is on no ward is refused', () => {
    const course = new Course();
    expect(wrong(course, 'prepare', preparePayload(course.state()))).toEqual(['not-admitted']);
  });

  it('to stop says what went in when a fill ran, and nothing when none did', () => {
    const course = drained();
    const stop = { reason: 'pain', note: null, infused: null, contamination: null } as const;
    expect(wrong(course, 'stop', { ...stop, infused: { basis: 'notKnown' } })).toEqual(['no-fill-runs']);
    course.startFill(282);
    expect(wrong(course, 'stop', stop)).toEqual(['missing']);
    expect(wrong(course, 'stop', { ...stop, infused: { basis: 'stated', volumeMl: 0 } })).toEqual([]);
  });

  it('to resume goes on with a stopped visit, after broken sterility only with a new set', () => {
    const course = drained();
    const contamination = { kind: 'dry', clamped: true, setChanged: false, physicianTold: true } as const;
    course.write('stop', { reason: 'sterilityBroken', note: null, infused: null, contamination }, 284);
    expect(wrong(course, 'resume', {})).toEqual(['set-not-changed']);
    const closed = drained();
    closed.write('close', { leftEmpty: true }, 284);
    expect(wrong(closed, 'resume', {})).toEqual(['not-stopped']);
  });
});

describe('a fill', () => {
  it('after an ordinary drain is allowed', () => {
    const course = drained();
    expect(wrong(course, 'startFill', filling(course))).toEqual([]);
  });

  it('on top of a dwell that nobody drained is refused, whoever wants it', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    course.prepare(260);
    course.write('connect', {}, 262);
    const guardOverride = { reason: 'in a hurry', physician: 'Dr Invented' };
    expect(
      wrong(course, 'startFill', filling(course, { guardOverride, prescribedMl: 2000 }), { role: 'chargeNurse' }),
    ).toContain('drain-first');
  });

  it('with no drain volume is not offered: not known is not zero', () => {
    const course = drained(null);
    expect(wrong(course, 'startFill', filling(course))).toEqual(['guard']);
  });

  it('over the guard takes the role and a reason', () => {
    const course = drained(1000);
    const override = filling(course, { guardOverride: { reason: 'the physician at the bed', physician: null } });
    expect(wrong(course, 'startFill', filling(course))).toEqual(['guard']);
    expect(wrong(course, 'startFill', override)).toEqual(['guard-role']);
    expect(wrong(course, 'startFill', override, { role: 'chargeNurse' })).toEqual([]);
  });

  it('is no more than prescribed, with all that this visit has filled', () => {
    const course = drained();
    expect(wrong(course, 'startFill', filling(course, { prescribedMl: 2100 }))).toEqual(['more-than-prescribed']);
    course.fill(282, 288, 1200);
    expect(wrong(course, 'startFill', filling(course, { prescribedMl: 800 }))).toEqual([]);
    expect(wrong(course, 'startFill', filling(course, { prescribedMl: 801 }))).toEqual(['more-than-prescribed']);
  });

  it('of a revision that is no longer in force asks to check the bag again', () => {
    const course = drained();
    const old = filling(course);
    course.prescribe(281);
    expect(wrong(course, 'startFill', old)).toEqual(['not-prescribed']);
  });
});

describe('typed ranges', () => {
  it.each([
    ['flush', 'payload.flushMl', 501, '0 to 500 mL'],
    ['flush', 'payload.flushMl', -1, '0 to 500 mL'],
  ])('%s: %s %d is refused with the allowed range', (_what, field, flushMl, allowed) => {
    const course = drained();
    const [problem] = problems(course, 'startFill', filling(course, { flushMl }));
    expect(problem).toMatchObject({ code: 'out-of-range', field, value: flushMl, allowed });
  });

  it('of a drain: 0 to 6,000 mL without tare and flush, never below', () => {
    const course = drained(null);
    const measure = { drain: 1, role: 'exact', method: 'jug', flushIncluded: true, flushMl: 100 } as const;
    expect(wrong(course, 'measure', { ...measure, volumeMl: 100 })).toEqual([]);
    expect(wrong(course, 'measure', { ...measure, volumeMl: 99 })).toEqual(['out-of-range']);
    expect(wrong(course, 'measure', { ...measure, volumeMl: 6101 })).toEqual(['out-of-range']);
    const scale = {
      drain: 1,
      role: 'exact',
      method: 'scale',
      flushIncluded: false,
      flushMl: 0,
      densityGPerMl: 1,
    } as const;
    expect(wrong(course, 'measure', { ...scale, grossG: 90, tareG: 100 })).toEqual(['out-of-range']);
  });

  it('of the ordinary observations (common practice)', () => {
    const course = drained();
    expect(wrong(course, 'weight', { weightKg: 351, cavity: 'full' })).toEqual(['out-of-range']);
    expect(wrong(course, 'temperature', { celsius: 29.9 })).toEqual(['out-of-range']);
    expect(wrong(course, 'glucose', { glucoseMmolPerL: 61, meter: 'other' })).toEqual(['out-of-range']);
    const pressure = { systolicMmHg: 120, diastolicMmHg: 130, position: null };
    expect(wrong(course, 'bloodPressure', pressure)).toEqual(['out-of-order']);
    const urine = { direction: 'out', route: 'urine', volumeMl: 10_001, note: null } as const;
    expect(wrong(course, 'otherFluid', urine)).toEqual(['out-of-range']);
  });
});

describe('effluent', () => {
  it('of a drain that has not begun is refused', () => {
    const clear = { appearance: ['clear'], note: null } as const;
    expect(wrong(drained(), 'appearance', { drain: 1, ...clear })).toEqual([]);
    expect(wrong(drained(), 'appearance', { drain: 2, ...clear })).toEqual(['no-such-drain']);
  });

  it('that was cloudy is kept, with its place and the sample sent, before it may be discarded', () => {
    const course = drained();
    course.write('appearance', { drain: 1, appearance: ['cloudy'], note: null }, 282);
    expect(wrong(course, 'bagFate', { drain: 1, fate: 'discarded' })).toEqual(['keep-cloudy-bag']);
    const kept = { drain: 1, fate: 'kept', keptWhere: 'sluice, shelf 2' } as const;
    course.write('bagFate', { ...kept, sampleSent: false }, 284);
    expect(wrong(course, 'bagFate', { drain: 1, fate: 'discarded' })).toEqual(['keep-cloudy-bag']);
    course.write('bagFate', { ...kept, sampleSent: true }, 290);
    expect(wrong(course, 'bagFate', { drain: 1, fate: 'discarded' })).toEqual([]);
  });
});

describe('confirmed empty', () => {
  const second = { reason: 'secondDrainUnder100Ml', note: '' } as const;

  it('by a second drain takes one that stopped and brought less than 100 mL', () => {
    const course = drained(1500);
    expect(wrong(course, 'cavityConfirmedEmpty', second)).toEqual(['no-second-drain']);
    course.drain(284, 290, 100);
    expect(wrong(course, 'cavityConfirmedEmpty', second)).toEqual(['no-second-drain']);
    course.drain(292, 295, 99);
    expect(wrong(course, 'cavityConfirmedEmpty', second)).toEqual([]);
  });

  it('is never said over fluid that nobody drained, nor while it runs', () => {
    const imaging = { reason: 'imaging', note: '' } as const;
    expect(wrong(new Course().admit(0).firstFill(10, 2000), 'cavityConfirmedEmpty', imaging)).toEqual(['drain-first']);
    const course = drained();
    course.startFill(282);
    expect(wrong(course, 'cavityConfirmedEmpty', imaging)).toEqual(['fluid-runs']);
  });
});

describe('the stay', () => {
  it('has one admission, and nobody leaves it while connected', () => {
    const admitted = { bed: '8', inside: { cavity: 'empty' }, dialysis: 'chronic' } as const;
    const course = drained();
    expect(wrong(course, 'admitted', admitted, { role: 'chargeNurse' })).toEqual(['admitted-already']);
    expect(wrong(course, 'discharged', { to: 'home', handover: null }, { role: 'chargeNurse' })).toEqual([
      'visit-under-way',
    ]);
  });
});

describe('alerts', () => {
  it('that are not open cannot be acknowledged, and nobody has one for longer than the ward allows', () => {
    const course = drained();
    const until = minute(10_000 + 60);
    expect(wrong(course, 'alertAcknowledged', { alertId: 'none', until })).toEqual(['out-of-range', 'alert-not-open']);
  });

  it('are raised by the tool alone', () => {
    const condition = { kind: 'drainOverdue', cause: 'x', rank: 'medium', since: minute(0), facts: {} } as const;
    const raised = { condition, settingsVersion: 1 };
    expect(wrong(drained(), 'alertRaised', raised, { role: 'chargeNurse' })).toContain('tool-only');
  });
});
