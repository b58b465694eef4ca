import type { Draft, Entry } from '@slackwater/domain';
import { Course, minute, PATIENT } from '@slackwater/domain/testing/course';
import { describe, expect, it } from 'vitest';
import { predicted, problemsOffline } from './predict.ts';
import type { Touch } from './touch.ts';

/** As it waits: without what only the record adds. */
const asTouch = (...entries: readonly Entry[]): Touch => ({
  wardId: 'kestrel',
  patientId: PATIENT,
  drafts: entries.map(
    ({ siteId: _, wardId: __, deviceAt: ___, receivedAt: ____, author: _____, position: ______, ...draft }) =>
      draft as Draft,
  ),
  writtenAt: entries[0]?.happenedAt ?? 0,
  clock: null,
  typed: [],
  timesSaid: false,
});

/** One exchange after an admission with an empty cavity: fill only, then a drain. */
const exchange = () => {
  const course = new Course().admit(0);
  const atCut = course.state();
  const known = course.entries.length;
  course.prepare(10, { purpose: 'fillOnly' });
  course.write('connect', {}, 12);
  course.startFill(14);
  course.write('endFill', { infused: { basis: 'stated', volumeMl: 2000 } }, 24);
  course.write('close', { leftEmpty: false }, 26);
  return { course, atCut, waiting: course.entries.slice(known) };
};

const author = { accountId: 'nurse', role: 'nurse' } as const;

describe('a bedside without network', () => {
  it('stands, after every touch, where the record will put it', () => {
    const { course, atCut, waiting } = exchange();
    for (let count = 1; count <= waiting.length; count += 1) {
      const { newest: _, ...state } = predicted(
        atCut,
        waiting.slice(0, count).map((one) => asTouch(one)),
        'nurse',
        course.policy,
      );
      const upTo = new Course();
      upTo.entries.push(...course.entries.slice(0, course.entries.length - waiting.length + count));
      const { newest: __, ...recorded } = upTo.state();
      expect(state).toEqual(recorded);
    }
  });

  it('passes over a step behind which somebody else has gone meanwhile', () => {
    const { course, atCut, waiting } = exchange();
    const theirs = { ...atCut, head: 'their-step' };
    expect(predicted(theirs, [asTouch(...waiting)], 'nurse', course.policy)).toMatchObject({
      head: 'their-step',
      visit: null,
    });
  });

  it('is not counted twice once the record has what still waits here', () => {
    const { course, waiting } = exchange();
    const state = course.state();
    expect(predicted(state, [asTouch(...waiting)], 'nurse', course.policy)).toEqual(state);
  });

  it('refuses what the domain refuses, in its words, before it waits', () => {
    const { course, atCut, waiting } = exchange();
    const [prepare, connect, startFill] = waiting;
    const about = { state: atCut, policy: course.policy, now: minute(30), author };
    expect(problemsOffline(asTouch(prepare!), { ...about, waiting: [] })).toEqual([]);
    expect(problemsOffline(asTouch(startFill!), { ...about, waiting: [asTouch(prepare!)] })).toMatchObject([
      { code: 'not-connected', field: 'entries.0.kind' },
    ]);
    expect(problemsOffline(asTouch(startFill!), { ...about, waiting: [asTouch(prepare!), asTouch(connect!)] })).toEqual(
      [],
    );
  });

  it('asks for no second person: their sign-in is the server’s to check, and it says why', () => {
    const { course, atCut, waiting } = exchange();
    const asked = asTouch({ ...waiting[0], id: 'asked', kind: 'additiveCheckAsked', after: null } as Entry);
    const about = { state: atCut, policy: course.policy, now: minute(30), author, waiting: [] };
    expect(problemsOffline(asked, about)).toMatchObject([{ code: 'needs-the-server' }]);
  });

  it('corrects what waits, and leaves what stands in the record to the record', () => {
    const { course, atCut, waiting } = exchange();
    const undo = (target: string) => {
      const [like] = waiting;
      const payload = { target, reason: 'undone at the bedside', enteredAs: null };
      return asTouch({ ...like, id: 'undo', kind: 'retracted', payload, after: null, happenedAt: minute(30) } as Entry);
    };
    const about = { state: atCut, policy: course.policy, now: minute(30), author, waiting: [asTouch(...waiting)] };
    const close = waiting.at(-1)!;
    expect(problemsOffline(undo(close.id), about)).toEqual([]);
    const undone = predicted(atCut, [...about.waiting, undo(close.id)], 'nurse', course.policy);
    expect(undone.visit).toMatchObject({ state: 'closing' });
    expect(problemsOffline(undo(course.entries[0]!.id), about)).toMatchObject([{ code: 'needs-the-record' }]);
  });
});
