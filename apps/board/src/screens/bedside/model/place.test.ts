import type { BedsideState, DrainOut, Visit } from '@slackwater/domain';
import { describe, expect, it } from 'vitest';
import { bagsWithoutFate, placeOf } from './place.ts';

const drain = (readingMl: number | null): DrainOut => ({
  entryId: 'd',
  visitId: 'v',
  startedAt: 0,
  endedAt: 1,
  drainedMl: readingMl,
  readingMl,
  exactMl: null,
  flow: 'stopped',
  appearance: [],
});

const visit = (change: Partial<Visit>): Visit => ({
  id: 'v',
  state: 'preparing',
  since: 0,
  startedAt: 0,
  startedBy: null,
  purpose: 'exchange',
  bag: null,
  revisionId: null,
  itemId: null,
  orderId: null,
  drains: [],
  fill: null,
  comfort: null,
  flowMoves: [],
  flowEffects: [],
  closedAt: null,
  stopped: null,
  bagFates: [],
  despiteOrderId: null,
  additiveCheck: null,
  ...change,
});

const state = (change: Pick<BedsideState, 'visit' | 'lastVisit'>) => change as BedsideState;

describe('where the bedside stands', () => {
  it('no visit: prepare', () => expect(placeOf(state({ visit: null, lastVisit: null }))).toBe('prepare'));

  it.each([
    [{ state: 'preparing' }, 'connect'],
    [{ state: 'connected' }, 'drainReady'],
    [{ state: 'connected', purpose: 'fillOnly' }, 'fillReady'],
    [{ state: 'draining', drains: [drain(null)] }, 'drain'],
    [{ state: 'drained', drains: [drain(null)] }, 'reading'],
    [{ state: 'drained', drains: [drain(1850)] }, 'fillReady'],
    [{ state: 'drained', drains: [drain(1850), drain(null)] }, 'reading'],
    [{ state: 'drained', drains: [drain(1850)], purpose: 'drainOnly' }, 'closeReady'],
    [{ state: 'filling' }, 'fill'],
    [{ state: 'closing' }, 'close'],
  ] as const)('%j: %s', (change, place) => {
    expect(placeOf(state({ visit: visit(change), lastVisit: null }))).toBe(place);
  });

  it('an ended visit whose bag has no fate is finished first', () => {
    const lastVisit = visit({ state: 'closing', drains: [drain(1850)], closedAt: 5 });
    expect(bagsWithoutFate(lastVisit)).toEqual([1]);
    expect(placeOf(state({ visit: null, lastVisit }))).toBe('finish');
    const done = { ...lastVisit, bagFates: [{ drain: 1, fate: 'discarded' as const }] };
    expect(placeOf(state({ visit: null, lastVisit: done }))).toBe('prepare');
  });
});
