import type { BoardRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';

type Words = { ml: (ml: number) => string; whole: (ml: number) => string; clock: (at: EpochMs) => string };

export type InsideWords = {
  first: string;
  second: string | null;
  strength: string | null;
  /** The first line decides something now: an estimate, or that nothing is known. */
  decides: boolean;
};

/** The two figures of the estimate agree within this, mL: then one is said. */
const AGREE_ML = 200;
/** More than what an ordinary complete drain leaves behind, mL. */
const MUCH_ML = 400;

/** What the fills put in, mL; null when the cavity holds nothing or a fill's volume is not known. */
export const filledMl = ({ cavity }: Pick<BoardRow, 'cavity'>): number | null => {
  if (cavity.state !== 'holding') return null;
  return cavity.fills.reduce<number | null>(
    (sum, fill) => (sum === null || fill.filledMl === null ? null : sum + fill.filledMl),
    0,
  );
};

const toTen = (ml: number): number => Math.round(ml / 10) * 10;

const estimate = ({ inside }: BoardRow, { ml, whole }: Words): InsideWords => {
  const { bookMl, flowMl } = inside;
  const known = flowMl ?? bookMl;
  if (known === null) return { first: 'not known', second: 'probably inside', strength: null, decides: true };
  if (bookMl !== null && flowMl !== null && Math.abs(bookMl - flowMl) > AGREE_ML) {
    return {
      first: `by the flow about ${whole(toTen(flowMl))},`,
      second: `by the book about ${ml(toTen(bookMl))}`,
      strength: null,
      decides: true,
    };
  }
  return { first: `about ${ml(toTen(known))}`, second: 'probably inside', strength: null, decides: true };
};

/** The second line of fluid that dwells: what it was filled onto where that is much, its cycle, or since when. */
const since = (row: BoardRow, { ml, whole, clock }: Words): string | null => {
  const { bookMl, flowMl } = row.inside;
  if (bookMl !== null && flowMl !== null && Math.abs(bookMl - flowMl) > AGREE_ML) {
    return `onto ${whole(toTen(flowMl))} flow, ${whole(toTen(bookMl))} book`;
  }
  if (flowMl !== null && flowMl > MUCH_ML) return `onto about ${ml(toTen(flowMl))}`;
  if (row.cycle)
    return `cycle ${row.cycle.number}, ${row.cycle.minutes === 60 ? 'hourly' : `every ${row.cycle.minutes} min`}`;
  const fill = row.cavity.state === 'holding' ? row.cavity.fills[0] : undefined;
  return fill?.endedAt ? `dwelling from ${clock(fill.endedAt)}` : null;
};

/**
 * What the board says of the fluid in a cavity. The estimate takes the place of the volume only where it decides: after
 * a drain, before the next fill.
 */
export const insideWords = (row: BoardRow, words: Words): InsideWords => {
  const state = row.visit?.state;
  const filled = filledMl(row);
  if (state === 'drained') return estimate(row, words);
  if (state === 'filling') {
    return row.next
      ? { first: words.ml(row.next.fillMl), second: 'running in', strength: row.next.strength, decides: false }
      : { first: 'running in', second: null, strength: null, decides: false };
  }
  const strength = row.insideStrength;
  if (state === 'draining') {
    return {
      first: filled === null ? 'volume unknown' : words.ml(filled),
      second: 'running out',
      strength,
      decides: filled === null,
    };
  }
  if (row.cavity.state === 'empty') return { first: 'empty', second: null, strength: null, decides: false };
  if (filled === null) return { first: 'volume unknown', second: null, strength, decides: true };
  return { first: words.ml(filled), second: since(row, words), strength, decides: false };
};
