import { describe, expect, it } from 'vitest';
import { birthProblem, EMPTY_INSIDE, readInside } from './admission-draft.ts';

const read = (change: Partial<typeof EMPTY_INSIDE>) =>
  readInside({ ...EMPTY_INSIDE, ...change }, 'Europe/London', 5000);
const filledAt = { date: '2026-11-25', clock: '09:30', which: null };

describe('what came with the patient', () => {
  it('empty is empty', () => expect(read({ what: 'empty' }).inside).toEqual({ cavity: 'empty' }));
  it('known takes volume, strength and time, all of them', () => {
    expect(read({ what: 'known', volume: '2000', solutionId: 'glucose-1.36', filledAt }).inside).toEqual({
      cavity: 'holding',
      solutionId: 'glucose-1.36',
      filledMl: 2000,
      fillEndedAt: Date.UTC(2026, 10, 25, 9, 30),
    });
    expect(read({ what: 'known', volume: '2000', filledAt }).missing).toContain('the strength');
  });
  it('not known keeps what is known and leaves the rest open, never zero', () => {
    expect(read({ what: 'notKnown', solutionId: 'glucose-1.36' }).inside).toEqual({
      cavity: 'holding',
      solutionId: 'glucose-1.36',
      filledMl: null,
      fillEndedAt: null,
    });
    expect(read({ what: 'notKnown' }).inside).toEqual({ cavity: 'notKnown' });
  });
  it('nothing chosen is asked for', () => expect(read({}).missing).toBe('what is inside'));
});

describe('a birth date', () => {
  it('exists and does not lie ahead', () => {
    expect(birthProblem('1953-05-17', '2026-11-25')).toBeNull();
    expect(birthProblem('1953-02-30', '2026-11-25')).toContain('no date');
    expect(birthProblem('17-05-1953', '2026-11-25')).toContain('no date');
    expect(birthProblem('2027-01-01', '2026-11-25')).toContain('lies ahead');
  });
});
