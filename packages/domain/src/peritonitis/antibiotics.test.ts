import { describe, expect, it } from 'vitest';
import type { Payloads } from '../record/entry.ts';
import { Course, minute, START_AT } from '../testing/course.ts';
import { clearingStanding } from './antibiotics.ts';
import { clearingWords } from './clearing-words.ts';
import { workUpToOpen } from './opens-work-up.ts';
import { openWorkUp } from './work-up.ts';

const DAY = 24 * 60;
/** The course begins on 25-Nov-2026. */
const on = (day: number): string => new Date(START_AT + day * DAY * 60_000).toISOString().slice(0, 10);

/** A cloudy drain, and its work-up. */
function cloudy() {
  const course = new Course().admit(0).firstFill(10, 2000);
  course.exchange(260, 2200, 2000);
  course.write('appearance', { drain: 1, appearance: ['cloudy'], note: null }, 278);
  const { id: workUpId } = course.write('workUpOpened', workUpToOpen(course.state())!, 300, { visitId: null });
  const started = (change: Partial<Payloads['antibioticStarted']>, at = 320) =>
    course.write(
      'antibioticStarted',
      { workUpId, what: 'vancomycin', startedOn: on(0), answers: 'yes', note: null, ...change },
      at,
      { visitId: null },
    );
  const counted = (value: number, day: number) =>
    course.write(
      'resultReported',
      {
        workUpId,
        sampleId: null,
        whiteCells: { value, unit: '/uL' },
        polymorphPercent: 80,
        gramStain: null,
        culture: null,
        note: null,
      },
      day * DAY,
      { visitId: null },
    );
  const looked = (appearance: Payloads['appearance']['appearance'], day: number) => {
    course.exchange(day * DAY, 2200, 2000);
    course.write('appearance', { drain: 1, appearance, note: null }, day * DAY + 18);
  };
  const at = (day: number) => {
    const state = course.state();
    return clearingStanding(openWorkUp(state.workUps)!, state, minute(day * DAY + 60), course.policy);
  };
  return { course, started, counted, looked, at };
}

const stateAt = (standing: ReturnType<typeof clearingStanding>) =>
  standing.is === 'counted' ? standing.clearing.state : standing.is;

// Not clear after five days of appropriate antibiotic (ISPD 2022, from memory).
describe('clearing', () => {
  it('is not counted without an antibiotic, nor from one of which nobody said that the organism answers', () => {
    const { started, at } = cloudy();
    expect(at(1)).toEqual({ is: 'noAntibiotic' });
    started({ answers: 'notKnown' });
    expect(at(1)).toEqual({ is: 'answerNotKnown', what: ['vancomycin'] });
    started({ what: 'Vancomycin ', answers: 'no' }, 900);
    expect(stateAt(at(1))).toBe('answerNotKnown');
    expect(clearingWords(at(1))).toContain('clearing is not counted');
  });

  it('counts from the first day of one that it answers to, also where that was said later', () => {
    const { started, at } = cloudy();
    started({ answers: 'notKnown' });
    started({ answers: 'yes' }, 2 * DAY);
    expect(at(2)).toMatchObject({ is: 'counted', since: on(0), clearing: { days: 2, state: 'tooEarly' } });
  });

  it('is refractory at day 5 and not at day 4, while the newest drain is cloudy', () => {
    const { started, looked, at } = cloudy();
    started({});
    looked(['cloudy'], 4);
    expect(stateAt(at(4))).toBe('tooEarly');
    expect(stateAt(at(5))).toBe('refractory');
  });

  it('is known neither way once nobody watched the newest drain', () => {
    const { started, looked, at } = cloudy();
    started({});
    looked(['clear'], 4);
    looked(null, 5);
    expect(stateAt(at(5))).toBe('notKnown');
  });

  it('is cleared with a clear drain and a count under the limit; a falling count is said to fall', () => {
    const { started, counted, looked, at } = cloudy();
    started({});
    counted(2400, 2);
    counted(600, 5);
    looked(['cloudy'], 5);
    expect(clearingWords(at(5))).toBe(
      '5 days of an antibiotic that the organism answers to, since 25-Nov-2026: not clear after 5 days, which is called refractory. The count falls: watching longer is right while it falls towards normal.',
    );
    counted(80, 6);
    looked(['clear'], 6);
    expect(stateAt(at(6))).toBe('cleared');
  });
});
