import { describe, expect, it } from 'vitest';
import { Course, minute } from '../testing/course.ts';
import { canonical } from './canonical.ts';
import type { Entry } from './entry.ts';

const ids = (entries: readonly Entry[]) => canonical(entries).map((entry) => entry.id);

describe('the canonical order', () => {
  it('is by happened-at, whatever the order of arrival', () => {
    const course = new Course();
    const late = course.write('weight', { weightKg: 70, cavity: 'full' }, 20);
    const early = course.write('weight', { weightKg: 71, cavity: 'full' }, 10);
    expect(ids([late, early])).toEqual([early.id, late.id]);
  });

  it('within one instant follows `after`, and else the position', () => {
    const course = new Course().admit(0);
    const prepare = course.prepare(10);
    const connect = course.write('connect', {}, 10, { position: 1 });
    const weight = course.write('weight', { weightKg: 70, cavity: 'full' }, 10, { position: 0 });
    expect(ids([connect, prepare, weight])).toEqual([weight.id, prepare.id, connect.id]);
  });

  it('holds each entry once, however often it arrives', () => {
    const course = new Course().admit(0).firstFill(10, 2000);
    expect(ids([...course.entries, ...course.entries.toReversed()])).toEqual(ids(course.entries));
  });

  it('brings an entry back when its retraction is retracted', () => {
    const course = new Course();
    const weight = course.write('weight', { weightKg: 70, cavity: 'full' }, 0);
    const retract = (target: string) => course.write('retracted', { target, reason: 'a slip', enteredAs: null }, 5);
    const first = retract(weight.id);
    expect(ids(course.entries)).toEqual([]);
    retract(first.id);
    expect(ids(course.entries)).toEqual([weight.id]);
  });

  it('keeps the author, the place and the id of what is corrected', () => {
    const course = new Course();
    const weight = course.write('weight', { weightKg: 700, cavity: 'full' }, 0);
    const payload = { weightKg: 70, cavity: 'full' };
    course.write('corrected', { target: weight.id, reason: 'a slip', payload, happenedAt: minute(1) }, 5);
    expect(canonical(course.entries)).toEqual([{ ...weight, payload, happenedAt: minute(1) }]);
  });
});
