import { describe, expect, it } from 'vitest';
import type { Comfort } from '../effluent/effluent.ts';
import { judge } from '../exchange/judge.ts';
import type { Draft, Payloads } from '../record/entry.ts';
import { LONDON } from '../testing/bedside.ts';
import { Course, fillPayload, minute, PATIENT } from '../testing/course.ts';
import { guardFill } from './guard.ts';

const WELL: Comfort = { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false };

/** Filled with 2,000 mL at 08:20, drained four hours later; 2,350 mL are expected. */
function drained(drainedMl: number, comfort: Partial<Comfort>, appearance: Payloads['appearance']['appearance']) {
  const course = new Course().admit(0).firstFill(7, 2000);
  course.prepare(250);
  course.write('connect', {}, 253);
  course.drain(255, 275, drainedMl);
  course.write('appearance', { drain: 1, appearance, note: null }, 270);
  course.write('comfort', { phase: 'drain', comfort: { ...WELL, ...comfort } }, 271);
  return course;
}
const offer = (course: Course) => guardFill(course.state(), 2000, LONDON);

describe('a fill', () => {
  it.each<[string, number, Partial<Comfort>, 'yes' | 'ask' | 'no']>([
    ['after an ordinary drain of a comfortable patient', 2350, {}, 'yes'],
    ['of a breathless patient after an ordinary drain', 2350, { breathless: true }, 'ask'],
    ['of a breathless patient after a short drain', 1900, { breathless: true }, 'no'],
    ['after a short drain without breathlessness', 1900, {}, 'yes'],
    ['with a leak at the exit', 2350, { leakAtExit: true }, 'ask'],
    ['with a swelling flank', 2350, { swellingAt: ['flank'] }, 'ask'],
    ['after watery stool, the catheter of an age not known', 2350, { sudden: ['wateryStool'] }, 'no'],
  ])('%s', (_when, drainedMl, comfort, expected) => {
    expect(offer(drained(drainedMl, comfort, ['clear'])).offer).toBe(expected);
  });

  it.each(['brown', 'green'] as const)('after a %s drain is not offered', (appearance) => {
    expect(offer(drained(2350, {}, [appearance])).offer).toBe('no');
  });

  it('after watery stool with an old catheter is not stopped', () => {
    const course = drained(2350, { sudden: ['wateryStool'] }, ['clear']);
    const inserted = { note: null, breakInLimitMl: null, breakInUntil: null, breakInPosture: null } as const;
    course.write('catheter', { event: 'inserted', ...inserted }, -60 * 24 * 60, { visitId: null });
    expect(offer(course).offer).toBe('yes');
  });

  it('that the guard does not offer is refused to a nurse; a charge nurse goes on with a reason', () => {
    const course = drained(1900, { breathless: true }, ['clear']);
    const payload = { ...fillPayload(course.state()), prescribedMl: 2000 };
    const problems = (role: 'nurse' | 'chargeNurse', reason: string | null) => {
      const guardOverride = reason === null ? null : { reason, physician: null };
      const { visit, head } = course.state();
      const draft = { kind: 'startFill', payload: { ...payload, guardOverride }, visitId: visit?.id, after: head };
      return judge(course.state(), { ...draft, patientId: PATIENT, happenedAt: minute(280) } as unknown as Draft, {
        now: minute(280),
        policy: LONDON,
        actor: { accountId: 'somebody', role },
      }).map(({ code }) => code);
    };
    expect(problems('nurse', null)).toEqual(['guard']);
    expect(problems('nurse', 'chest film is clear')).toEqual(['guard-role']);
    expect(problems('chargeNurse', 'chest film is clear')).toEqual([]);
  });
});
