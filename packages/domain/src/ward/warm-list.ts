import type { EpochMs } from '../time/instant.ts';
import type { BoardRow, NextBagShown } from './board-row.ts';
import { toComeOf } from './workload.ts';

type WarmRow = Pick<
  BoardRow,
  'bed' | 'cavity' | 'visit' | 'due' | 'laterDrainsAt' | 'next' | 'cycle' | 'hold' | 'stayEmpty'
>;

/** One bag to warm; with doubts it may be another one. */
export type BagToWarm = { at: EpochMs; bed: string } & NextBagShown;

/** A drain after which no bag follows, and why. */
export type NoBag = { at: EpochMs; bed: string } & (
  | { why: 'hold'; reviewBy: EpochMs }
  | { why: 'stayEmpty'; until: EpochMs }
  | { why: 'notPrescribed' }
);

/** What to warm, and where nothing is to be warmed though somebody may look for it; both by time. */
export type WarmList = { bags: readonly BagToWarm[]; without: readonly NoBag[] };

/**
 * The bags to warm for what falls due from one instant to another (dry heat, one to two hours ahead), and for what was due
 * before and nobody has begun: that bag is wanted first. What an hourly cycle repeats is listed as often as it falls due;
 * of other prescriptions only the next bag is known. Where an order keeps the cavity empty after the drain, the bag is for
 * when that ends.
 */
export function warmList(rows: readonly WarmRow[], from: EpochMs, to: EpochMs): WarmList {
  const bags: BagToWarm[] = [];
  const without: NoBag[] = [];
  for (const row of rows) {
    const { bed, next, stayEmpty } = row;
    const toCome = toComeOf(row, waitsSince(row) ?? from, to).filter(({ planned }) => !planned || row.cycle !== null);
    if (next === null) {
      without.push(...toCome.filter(({ planned }) => !planned).map(({ at }) => ({ at, bed, ...whyNone(row) })));
    } else if (stayEmpty !== null && row.cavity.state !== 'empty') {
      const { until } = stayEmpty;
      if (until >= from && until < to) bags.push({ at: until, bed, ...next });
      else without.push(...toCome.slice(0, 1).map(({ at }) => ({ at, bed, why: 'stayEmpty', until }) as const));
    } else {
      bags.push(...toCome.map(({ at }) => ({ at, bed, ...next })));
    }
  }
  const byTime = (a: { at: EpochMs }, b: { at: EpochMs }) => a.at - b.at;
  return { bags: bags.sort(byTime), without: without.sort(byTime) };
}

/** Since when a bed waits at which nobody has begun; null where somebody has: a bag is in hand there. */
const waitsSince = ({ visit, due }: WarmRow): EpochMs | null => (visit === null && due !== null ? due.dueAt : null);

const whyNone = ({ hold }: WarmRow): { why: 'hold'; reviewBy: EpochMs } | { why: 'notPrescribed' } =>
  hold === null ? { why: 'notPrescribed' } : { why: 'hold', reviewBy: hold.reviewBy };
