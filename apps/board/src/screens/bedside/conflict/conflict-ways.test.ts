import type { Conflict } from '@slackwater/contract';
import { describe, expect, it } from 'vitest';
import { act, composeBatch } from '../model/batch.ts';
import { afterTheirs, minePutInPlace, myObservations } from './conflict-ways.ts';

const visitId = '0199d1a0-0000-7000-8000-000000000001';
const mine = composeBatch(
  [
    act('appearance', { drain: 1, appearance: ['clear'], note: null }, 1000),
    act('endDrain', { flow: 'stopped' }, 2000),
  ],
  { patientId: 'p', visitId, head: 'old-head' },
);
const theirs: Conflict = {
  entryId: 'their-entry',
  kind: 'endDrain',
  authorName: 'Okoro',
  happenedAt: 1500,
  receivedAt: 1600,
};

describe('two nurses at one step: no way loses an entry', () => {
  it('theirs counts: what I saw is still kept', () => {
    expect(myObservations(mine).map((draft) => draft.kind)).toEqual(['appearance']);
  });
  it('mine counts: theirs is corrected, never removed, and what I saw goes along', () => {
    const batch = minePutInPlace(mine, theirs, 'the clamp closed then', 'p', 3000);
    expect(batch.map((draft) => draft.kind)).toEqual(['appearance', 'corrected']);
    expect(batch[1]?.payload).toEqual({
      target: 'their-entry',
      reason: 'the clamp closed then',
      payload: { flow: 'stopped' },
      happenedAt: 2000,
    });
  });
  it('both happened: mine follows theirs, with the same ids, so that sending twice is once', () => {
    const batch = afterTheirs(mine, 'their-entry');
    expect(batch.map((draft) => draft.id)).toEqual(mine.map((draft) => draft.id));
    expect(batch.map((draft) => draft.after)).toEqual([null, 'their-entry']);
  });
});

describe('a touch of several entries', () => {
  it('chains its steps behind the head its author saw; observations name none', () => {
    const batch = composeBatch(
      [
        act('connect', {}, 1),
        act(
          'comfort',
          {
            phase: 'drain',
            comfort: { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false },
          },
          1,
        ),
        act('startDrain', {}, 1),
      ],
      { patientId: 'p', visitId, head: 'prepare' },
    );
    expect(batch.map((draft) => draft.after)).toEqual(['prepare', null, batch[0]?.id]);
  });
});
