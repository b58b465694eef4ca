import { describe, expect, it } from 'vitest';
import type { Role } from '../access/roles.ts';
import type { EntryKind, Payloads } from '../record/entry.ts';
import { Course, fillPayload, minute, preparePayload } from '../testing/course.ts';
import { judged } from '../testing/judged.ts';

// What is expected is the ward's practice for one way to imaging (common practice), not the product's own output.

const AWAY = { where: 'imaging', why: 'tunnel of the catheter', leavesAt: minute(330), backAt: minute(420) };
const REASON = { reason: 'imaging put off to tomorrow', physician: 'Dr Invented' };

/** Filled at minute 13; by order drained by minute 300, empty until minute 420. */
const ordered = (change: { away?: typeof AWAY } = { away: AWAY }) => {
  const course = new Course().admit(0).firstFill(5, 2000);
  const content = { what: 'drainAndStayEmpty', drainBy: minute(300), emptyUntil: minute(420), ...change } as const;
  const { id } = course.write('ordered', { content, note: null, telephone: null }, 60, { visitId: null });
  return { course, despiteOrder: { ...REASON, orderId: id } };
};

/** Prepared for an exchange and drained. */
const drained = (prepared: number, change: Partial<Payloads['prepare']> = {}) => {
  const { course, despiteOrder } = ordered();
  course.prepare(prepared, change);
  course.write('connect', {}, prepared + 2);
  course.drain(prepared + 3, prepared + 18, 2300);
  return { course, despiteOrder };
};

function problems<K extends EntryKind>(
  course: Course,
  kind: K,
  payload: Payloads[K],
  at: number,
  role: Role = 'nurse',
  now = at,
) {
  const { visit } = course.state();
  const visitId = kind === 'prepare' ? 'new-visit' : (visit?.id ?? null);
  return judged(course, kind, payload, { at, now, role, visitId });
}
const wrong = (...about: Parameters<typeof problems>) => problems(...about).map(({ code }) => code);

describe('hours that are ordered empty', () => {
  const prepare = (course: Course, at: number, change: Partial<Payloads['prepare']> = {}, role?: Role) =>
    wrong(course, 'prepare', { ...preparePayload(course.state()), ...change }, at, role);
  const fill = (course: Course, at: number, change: Partial<Payloads['startFill']> = {}, role?: Role) =>
    wrong(course, 'startFill', { ...fillPayload(course.state()), ...change }, at, role);

  it('begin for a bag with the ordered drain, up to 30 min before its time, and end when the order says', () => {
    const { course } = ordered();
    // 30 min: the ward's longest "due soon" (soonMostMinutes; common practice). Drained by 300, empty until 420.
    expect(prepare(course, 269)).toEqual([]);
    expect(prepare(course, 270)).toEqual(['stay-empty']);
    expect(prepare(course, 419)).toEqual(['stay-empty']);
    expect(prepare(course, 420)).toEqual([]);
  });

  it('leave the drain to be prepared and the drain alone', () => {
    const { course } = ordered();
    expect(prepare(course, 290, { purpose: 'drainOnly', bag: null, bagChecks: null })).toEqual([]);
  });

  it('say by when and why, and what would open the way', () => {
    const { course } = ordered();
    // 08:00 is minute 0: empty until 15:00, leaves at 13:30.
    const [problem] = problems(course, 'prepare', preparePayload(course.state()), 290);
    expect(problem).toMatchObject({
      field: 'payload.despiteOrder',
      message: 'By order: Stays empty until 15:00: imaging 13:30, back about 15:00. No fill goes in before.',
      allowed: 'no fill, a newer order for it, or an override by a charge nurse or nephrologist with a reason',
    });
  });

  it('stop a fill whose bag was prepared before they began', () => {
    const { course } = drained(245);
    expect(fill(course, 269)).toEqual([]);
    expect(fill(course, 285)).toEqual(['stay-empty']);
  });

  it('are gone against by role with a reason, for this very order and for the whole visit', () => {
    const { course, despiteOrder } = ordered();
    expect(prepare(course, 290, { despiteOrder })).toEqual(['stay-empty']);
    expect(prepare(course, 290, { despiteOrder }, 'chargeNurse')).toEqual([]);
    expect(prepare(course, 290, { despiteOrder }, 'nephrologist')).toEqual([]);
    expect(prepare(course, 290, { despiteOrder: { ...despiteOrder, reason: ' ' } }, 'chargeNurse')).toEqual([
      'stay-empty',
    ]);
    expect(prepare(course, 290, { despiteOrder: { ...despiteOrder, orderId: 'another' } }, 'chargeNurse')).toEqual([
      'stay-empty',
    ]);
    // The reason for another stop is none for this one.
    expect(prepare(course, 290, { override: REASON }, 'chargeNurse')).toEqual(['stay-empty']);

    const passed = drained(290, { despiteOrder });
    expect(fill(passed.course, 310)).toEqual([]);
    const late = drained(260);
    expect(fill(late.course, 285, { despiteOrder }, 'chargeNurse')).toEqual([]);
  });

  it('give way to an order for a bag that came later, and not to one that came before', () => {
    const bag = {
      what: 'oneExchange',
      solutionId: 'glucose-2.27',
      fillMl: 2000,
      dwellMinutes: 240,
      additives: [],
    } as const;
    const telephone = { physician: 'Dr Invented', readBack: true } as const;
    const { course } = ordered();
    const later = course.write('ordered', { content: bag, note: null, telephone }, 280, { visitId: null });
    expect(prepare(course, 290)).toEqual(['stay-empty']);
    expect(prepare(course, 290, { orderId: later.id })).toEqual([]);

    const before = new Course().admit(0).firstFill(5, 2000);
    const earlier = before.write('ordered', { content: bag, note: null, telephone }, 50, { visitId: null });
    const content = { what: 'drainAndStayEmpty', drainBy: minute(300), emptyUntil: minute(420) } as const;
    before.write('ordered', { content, note: null, telephone: null }, 60, { visitId: null });
    expect(prepare(before, 290, { orderId: earlier.id })).toEqual(['stay-empty']);
  });

  it('stop nothing that was given already: it is told as it was', () => {
    const { course } = ordered();
    const told = { ...preparePayload(course.state()), afterwards: true } as const;
    expect(wrong(course, 'prepare', told, 290, 'nurse', 400)).toEqual([]);
  });
});

describe('leaving the ward', () => {
  const leaves = (course: Course, at: number, reason?: string) =>
    wrong(
      course,
      'leftWard',
      {
        where: 'imaging',
        backAbout: null,
        ...(reason === undefined ? {} : { undrained: { reason, physician: null } }),
      },
      at,
    );

  it('with fluid inside, although ordered drained before, takes a reason', () => {
    const { course } = ordered();
    expect(leaves(course, 250)).toEqual(['leaves-undrained']);
    expect(leaves(course, 330, ' ')).toEqual(['leaves-undrained']);
    expect(leaves(course, 330, 'called early, theatre was told')).toEqual([]);
    // Once it is over, the order stands against nothing.
    expect(leaves(course, 420)).toEqual([]);
  });
  it('before the time to be drained is nobody’s concern where the order names no way', () => {
    const { course } = ordered({});
    expect(leaves(course, 299)).toEqual([]);
    expect(leaves(course, 300)).toEqual(['leaves-undrained']);
  });
  it('with an empty cavity needs none, and takes none', () => {
    const { course } = ordered();
    course.drainOnly(280, 2300);
    course.write('close', { leftEmpty: true }, 302);
    expect(leaves(course, 330)).toEqual([]);
    expect(leaves(course, 330, 'not drained')).toEqual(['nothing-inside']);
  });
  it('with nobody knowing what is inside takes a reason too', () => {
    const course = new Course().admit(0, { cavity: 'notKnown' });
    const content = { what: 'drainAndStayEmpty', drainBy: minute(300), emptyUntil: minute(420), away: AWAY } as const;
    course.write('ordered', { content, note: null, telephone: null }, 60, { visitId: null });
    expect(leaves(course, 330)).toEqual(['leaves-undrained']);
  });
});
