import type { BedsideState } from '../bedside/state.ts';
import type { Cavity } from '../cavity/cavity.ts';
import type { EpochMs } from '../time/instant.ts';
import type { Away } from './prescription.ts';

/** The order to be drained by a time and to stay empty, and where the patient goes meanwhile. */
export type StayEmpty = { orderId: string; drainBy: EpochMs; until: EpochMs; away: Away | null };

/** The order to stay empty that holds for what the cavity is now, the latest of several; null = none does. */
export function stayEmptyOf({ orders, cavity }: Pick<BedsideState, 'orders' | 'cavity'>): StayEmpty | null {
  const inForce = orders.flatMap(({ id, content, endedAt }) =>
    endedAt === null && content.what === 'drainAndStayEmpty' && content.emptyUntil > cavity.since
      ? [{ orderId: id, drainBy: content.drainBy, until: content.emptyUntil, away: content.away ?? null }]
      : [],
  );
  return inForce.at(-1) ?? null;
}

/**
 * In one line, for board and bedside: "Empty by 13:30: imaging 14:00" while something may be inside, then "Stays empty
 * until 15:30: imaging 14:00, back about 15:30".
 */
export function stayEmptyWords(
  { drainBy, until, away }: StayEmpty,
  cavity: Pick<Cavity, 'state'>,
  clock: (at: EpochMs) => string,
): string {
  if (cavity.state !== 'empty') {
    return `Empty by ${clock(drainBy)}${away ? `: ${away.where} ${clock(away.leavesAt)}` : ` and until ${clock(until)}`}`;
  }
  const gone = away ? `: ${away.where} ${clock(away.leavesAt)}, back about ${clock(away.backAt)}` : '';
  return `Stays empty until ${clock(until)}${gone}`;
}
