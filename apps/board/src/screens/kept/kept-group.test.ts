import type { BedsideState, Draft } from '@slackwater/domain';
import { describe, expect, it } from 'vitest';
import { AS_WRITTEN, keptWords, toSend } from './kept-group.ts';

const draft = (id: string, kind: Draft['kind'], happenedAt: number, after: string | null = null) =>
  ({ id, kind, happenedAt, after, payload: {}, format: 1, patientId: 'p', visitId: 'v' }) as unknown as Draft;
const kept = [draft('a', 'prepare', 100, 'old'), draft('w', 'weight', 105), draft('b', 'connect', 110, 'a')];
const stateAt = (head: string, headAt: number) => ({ head, headAt }) as BedsideState;

describe('kept entries that are sent again', () => {
  it('have their steps behind what stands in the record now; observations name none', () => {
    expect(toSend(kept, {}, stateAt('theirs', 90)).map(({ after }) => after)).toEqual(['theirs', null, 'a']);
  });

  it('keep their own place where they lie before it: the record looks whether they fit there', () => {
    expect(toSend(kept, {}, stateAt('theirs', 500)).map(({ after }) => after)).toEqual(['old', null, 'a']);
  });

  it('go without what is left out, and at the time that was put right', () => {
    const amendment = { a: { ...AS_WRITTEN, leftOut: true }, b: { ...AS_WRITTEN, happenedAt: 120 } };
    const sent = toSend(kept, amendment, stateAt('theirs', 90));
    expect(sent.map(({ id, happenedAt, after }) => [id, happenedAt, after])).toEqual([
      ['w', 105, null],
      ['b', 120, 'theirs'],
    ]);
  });
});

it('an entry of another build is named, and breaks no screen', () => {
  const say = () => {
    throw new TypeError('no such kind');
  };
  expect(keptWords(draft('a', 'weight', 1), say)).toBe('An entry “weight” that this page cannot read');
});
