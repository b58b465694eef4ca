import type { BedsideState, Visit } from '@slackwater/domain';

/** The screens of one exchange, in the order of the hands. */
export type Place =
  | 'prepare'
  | 'connect'
  | 'drainReady'
  | 'drain'
  | 'reading'
  | 'fillReady'
  | 'fill'
  | 'closeReady'
  | 'close'
  | 'finish';

/** The six blocks of the staff, and the short graduation for the reading. */
export type Block = 'prepare' | 'connect' | 'drain' | 'reading' | 'fill' | 'close' | 'finish';

export const BLOCK_OF: Record<Place, Block> = {
  prepare: 'prepare',
  connect: 'connect',
  drainReady: 'drain',
  drain: 'drain',
  reading: 'reading',
  fillReady: 'fill',
  fill: 'fill',
  closeReady: 'close',
  close: 'close',
  finish: 'finish',
};

/** Drains of a visit whose bag nobody has said anything about yet, numbered from 1. */
export const bagsWithoutFate = (visit: Visit): readonly number[] =>
  visit.drains.map((_, index) => index + 1).filter((drain) => !visit.bagFates.some((fate) => fate.drain === drain));

/** The last ended visit while its bags still wait to be measured and closed; null when nothing is open. */
const openFinish = (state: BedsideState): Visit | null =>
  state.lastVisit && bagsWithoutFate(state.lastVisit).length > 0 ? state.lastVisit : null;

const afterDrain = (visit: Visit): Place => {
  const last = visit.drains.at(-1);
  if (last && last.readingMl === null && last.exactMl === null) return 'reading';
  return visit.purpose === 'drainOnly' ? 'closeReady' : 'fillReady';
};

/** Where the bedside stands. Derived from the record alone, so a reload or another tablet shows the same screen. */
export const placeOf = (state: BedsideState): Place => {
  const { visit } = state;
  if (!visit) return openFinish(state) ? 'finish' : 'prepare';
  switch (visit.state) {
    case 'preparing':
      return 'connect';
    case 'connected':
      return visit.purpose === 'fillOnly' ? 'fillReady' : 'drainReady';
    case 'draining':
      return 'drain';
    case 'drained':
      return afterDrain(visit);
    case 'filling':
      return 'fill';
    case 'closing':
      return 'close';
  }
};
