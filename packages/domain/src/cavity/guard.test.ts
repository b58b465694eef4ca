import { describe, expect, it } from 'vitest';
import type { PatientLimits } from '../prescription/prescription.ts';
import { Course } from '../testing/course.ts';
import { guardFill } from './guard.ts';

/** Drained after a first dwell of 2,000 mL for four hours (2.27 %: 350 mL expected), so that so much is left by the book. */
function leftByTheBook(bookMl: number, limits: Partial<PatientLimits> = {}) {
  const course = new Course().admit(0);
  course.prescribe(1, limits);
  course.firstFill(10, 2000);
  course.prepare(263 - 5);
  course.write('connect', {}, 260);
  course.drain(263, 280, 200 + 2000 + 350 - bookMl);
  return { state: course.state(), policy: course.policy };
}

const guard = (bookMl: number, limits?: Partial<PatientLimits>) => {
  const { state, policy } = leftByTheBook(bookMl, limits);
  expect(state.inside.bookMl).toBeCloseTo(bookMl, 9);
  return guardFill(state, 2000, policy);
};

describe('the guard before a fill', () => {
  // Limits from memory, low confidence; the ordinary residual is 200 mL.
  it('offers up to a quarter of the fill above the residual, asks up to a half, and then says no', () => {
    expect(guard(700)).toMatchObject({ offer: 'yes', excessMl: 500 });
    expect(guard(701)).toMatchObject({ offer: 'ask', excessMl: 501 });
    expect(guard(1200)).toMatchObject({ offer: 'ask', excessMl: 1000 });
    expect(guard(1201)).toMatchObject({ offer: 'no', excessMl: 1001 });
  });

  it('says no where nothing is known, and names no figure', () => {
    const course = new Course().admit(0, { cavity: 'notKnown' });
    expect(guardFill(course.state(), 2000, course.policy)).toMatchObject({ offer: 'no', excessMl: null, peakMl: null });
  });

  it('holds the expected peak against the patient’s own limit alone', () => {
    // Peak by the book: 200 + 2,000 + 350 (2.27 % for 4 h, its highest) = 2,550 mL.
    expect(guard(200)).toMatchObject({ offer: 'yes', peakMl: 2550 });
    expect(guard(200, { mostInsideMl: 2550 })).toMatchObject({ offer: 'yes' });
    expect(guard(200, { mostInsideMl: 2549 })).toMatchObject({ offer: 'no' });
  });

  it('counts the parts of one fill as one, and a whole fill that nobody drained as too much', () => {
    const course = new Course().admit(0);
    course.prepare(10, { purpose: 'fillOnly' });
    course.write('connect', {}, 12);
    course.fill(14, 20, 800);
    expect(guardFill(course.state(), 2000, course.policy)).toMatchObject({ offer: 'yes', excessMl: 0 });
    course.fill(22, 30, 1200);
    expect(guardFill(course.state(), 2000, course.policy)).toMatchObject({ offer: 'no', excessMl: 2000 });
  });
});
