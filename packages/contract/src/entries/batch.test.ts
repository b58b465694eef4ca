import { describe, expect, it } from 'vitest';
import { draft, entryBatch, MOST_ENTRIES } from './batch.ts';

const weight = (over: Record<string, unknown> = {}) => ({
  id: '019a0000-0000-7000-8000-000000000001',
  kind: 'weight',
  format: 1,
  payload: { weightKg: 72.4, cavity: 'empty' },
  patientId: '019a0000-0000-7000-8000-0000000000aa',
  visitId: null,
  happenedAt: Date.UTC(2026, 10, 25, 10, 0),
  after: null,
  ...over,
});

const problemsOf = (value: unknown) => draft.safeParse(value).error?.issues.map((issue) => issue.path.join('.')) ?? [];

describe('a draft', () => {
  it('of a kind that a person writes is read as it is', () => {
    expect(draft.parse(weight())).toEqual(weight());
  });

  it('of a kind that only the tool writes is refused', () => {
    for (const kind of ['alertRaised', 'alertEscalated', 'imported']) {
      expect(problemsOf(weight({ kind, payload: {} })), kind).toEqual(['kind']);
    }
  });

  it('with a key that nobody knows is refused, outside and inside the payload', () => {
    expect(draft.safeParse(weight({ author: 'somebody' })).success).toBe(false);
    expect(problemsOf(weight({ payload: { weightKg: 72, cavity: 'empty', bed: '4' } }))).toEqual(['payload']);
  });

  it('with a number outside what can be is refused and names the field', () => {
    expect(problemsOf(weight({ payload: { weightKg: 0, cavity: 'empty' } }))).toEqual(['payload.weightKg']);
    expect(problemsOf(weight({ payload: { weightKg: 351, cavity: 'empty' } }))).toEqual(['payload.weightKg']);
    expect(problemsOf(weight({ payload: { weightKg: Number.NaN, cavity: 'empty' } }))).toEqual(['payload.weightKg']);
  });

  it('at an instant that is no whole millisecond of this century is refused', () => {
    for (const happenedAt of [0, Date.UTC(1999, 0), Date.UTC(2101, 0), 1_764_000_000_000.5, '2026-11-25']) {
      expect(problemsOf(weight({ happenedAt })), String(happenedAt)).toEqual(['happenedAt']);
    }
  });

  it('whose text could not be stored or printed is refused', () => {
    for (const where of [
      '',
      '   ',
      'X-ray\u0000',
      'X-ray\ud800',
      '\u001b[31mX-ray',
      'X\u202eyar-',
      'X\u2028ray',
      'x'.repeat(201),
    ]) {
      const left = weight({ kind: 'leftWard', payload: { where, backAbout: null } });
      expect(problemsOf(left), JSON.stringify(where)).toEqual(['payload.where']);
    }
  });
});

describe('a batch', () => {
  const batch = (entries: unknown[]) =>
    entryBatch.safeParse({ wardId: 'kestrel', deviceAt: Date.UTC(2026, 10, 25), entries }).success;

  it('holds from one to its most entries', () => {
    expect(batch([])).toBe(false);
    expect(batch([weight()])).toBe(true);
    const weights = (amount: number) =>
      Array.from({ length: amount }, (_, index) =>
        weight({ id: weight().id.slice(0, -3) + String(index).padStart(3, '0') }),
      );
    expect(batch(weights(MOST_ENTRIES))).toBe(true);
    expect(batch(weights(MOST_ENTRIES + 1))).toBe(false);
  });
});
