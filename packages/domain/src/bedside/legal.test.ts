import { describe, expect, it } from 'vitest';
import { Course, minute, PATIENT } from '../testing/course.ts';
import { illegalEntries, stateBefore } from './legal.ts';

const illegal = (course: Course) =>
  illegalEntries(PATIENT, course.entries, course.policy).map(({ entryId, problems }) => [entryId, problems[0]?.code]);

describe('a late visit', () => {
  it('that fits into the gap leaves the whole legal', () => {
    const course = new Course().admit(0).firstFill(10, 2000).exchange(540, 2350, 2000).exchange(260, 2300, 2000);
    expect(illegal(course)).toEqual([]);
  });

  it('that overlaps a recorded one does not', () => {
    const course = new Course().admit(0).firstFill(10, 2000).exchange(540, 2350, 2000).exchange(530, 2300, 2000);
    expect(illegal(course).length).toBeGreaterThan(0);
  });

  it('is told by the entries that can no longer stand, as is a retraction', () => {
    const course = new Course().admit(0).exchange(540, 2350, 2000);
    expect(illegal(course)).toEqual([]);
    course.write('retracted', { target: course.entries[4]!.id, reason: 'wrong patient', enteredAs: null }, 600);
    expect(illegal(course).map(([, code]) => code)).toContain('no-drain-runs');
  });
});

describe('the state before an instant', () => {
  it('is what the bedside was then', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    const then = course.state();
    course.exchange(540, 2350, 2000);
    expect(stateBefore(PATIENT, course.entries, minute(500), course.policy)).toEqual(then);
  });
});
