import type { BedsideState } from '../bedside/state.ts';
import type { Cavity } from '../cavity/cavity.ts';
import { type EpochMs, plusMinutes } from '../time/instant.ts';
import type { WardSettings } from '../ward/settings.ts';
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
 * The order to stay empty that a fill at an instant goes against. It does so from the ordered drain on, which may be
 * made as early as the ward's longest "due soon" before its time, until the cavity may be filled again; a fill earlier
 * than that is drained by the order itself. An order for a bag that came later is the newer word, and stands above it.
 * (Common practice.)
 *
 * @param orderId the order for a bag that the fill names; null = it goes by the prescription
 * @returns null = the fill goes against none
 */
export function fillAgainst(
  state: Pick<BedsideState, 'orders' | 'cavity'>,
  orderId: string | null,
  at: EpochMs,
  { soonMostMinutes }: WardSettings,
): StayEmpty | null {
  const order = stayEmptyOf(state);
  if (order === null || at < plusMinutes(order.drainBy, -soonMostMinutes) || at >= order.until) return null;
  const place = (id: string | null) => state.orders.findIndex((one) => one.id === id);
  return place(orderId) > place(order.orderId) ? null : order;
}

/**
 * The order to be drained first that leaving the ward at an instant goes against: something is or may be inside, and the
 * patient was to go without it, or the time of the ordered drain is past.
 * @returns null = leaving goes against none
 */
export function leavesAgainst(state: Pick<BedsideState, 'orders' | 'cavity'>, at: EpochMs): StayEmpty | null {
  const order = stayEmptyOf(state);
  if (order === null || state.cavity.state === 'empty' || at >= order.until) return null;
  return order.away !== null || at >= order.drainBy ? order : null;
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
