import type { BedsideState, Due } from '../bedside/state.ts';
import type { FillInside } from '../cavity/cavity.ts';
import { nextItem } from '../prescription/next-item.ts';
import type { DwellRule, Order, PrescriptionItem, PrescriptionRevision } from '../prescription/prescription.ts';
import { type EpochMs, HOUR_MS, plusMinutes } from '../time/instant.ts';
import { clockMinutesApart, nearestOccurrence } from '../time/zone.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { withMargins } from './margins.ts';

type Planned = Pick<Due, 'dueAt' | 'rule' | 'ask'>;

/**
 * When the fluid inside is to be drained: what the prescription says, unless an order changed it. A new revision does
 * not touch the dwell inside; hold and discontinue never stop a drain.
 * @returns null when nobody has said how long this fluid is to dwell.
 */
export function dueDrain(state: BedsideState, policy: WardPolicy): Due | null {
  const fill = state.cavity.state === 'holding' ? state.cavity.fills.at(-1) : undefined;
  const from = fill?.endedAt ?? state.cavity.since;
  const planned = byOrder(state, from, byPrescription(state, fill, from, policy));
  return planned && withMargins(from, { what: 'drain', ...planned }, policy.settings);
}

function byPrescription(
  state: BedsideState,
  fill: FillInside | undefined,
  from: EpochMs,
  policy: WardPolicy,
): Planned | null {
  const order = fill?.orderId ? state.orders.find((given) => given.id === fill.orderId) : undefined;
  const ordered = order && dwellOfOrder(order);
  if (ordered != null) return { dueAt: plusMinutes(from, ordered), rule: 'order', ask: false };

  const revision = state.revisionInside ?? state.prescription;
  const item = revision?.items.find((one) => one.id === fill?.itemId);
  if (revision && item) return byItem(revision, item, from, policy);
  return state.prescription && withoutItem(state.prescription, from, policy);
}

/** Minutes that a fill given by an order is to dwell; null = as the item it stands for. */
function dwellOfOrder({ content }: Order): number | null {
  if (content.what === 'rinse') return 0;
  return content.what === 'oneExchange' ? content.dwellMinutes : null;
}

/** When a fill that ended at `from` is to be drained, by its item of the prescription alone. */
export function byItem(
  revision: PrescriptionRevision,
  item: PrescriptionItem,
  from: EpochMs,
  policy: WardPolicy,
): Planned {
  const { dwell } = item;
  if (dwell.by === 'length') return { dueAt: plusMinutes(from, dwell.dwellMinutes), rule: 'length', ask: false };
  if (dwell.by === 'cycle') return { dueAt: plusMinutes(from, dwell.dwellMinutes), rule: 'cycle', ask: false };
  const next = nextItem(revision, item.id)?.dwell ?? dwell;
  // A day that mixes rules: the item after a clock item has no clock time to dwell to, so it is one day alone.
  return byClock(dwell.at, next.by === 'clock' ? next.at : dwell.at, from, policy);
}

/**
 * By clock: the occurrence of the next item's time nearest to the end of the fill + nominal dwell, but not sooner than
 * the ward's shortest dwell after a late fill, and not more than some hours beyond the nominal dwell.
 */
function byClock(filledAtClock: string, drainAtClock: string, from: EpochMs, policy: WardPolicy): Planned {
  const { settings, zone } = policy;
  const nominalMinutes = clockMinutesApart(filledAtClock, drainAtClock);
  const nominalAt = plusMinutes(from, nominalMinutes);
  const occurrence = nearestOccurrence(drainAtClock, nominalAt, zone);
  if (occurrence - nominalAt > settings.clockFarHours * HOUR_MS) {
    return { dueAt: nominalAt, rule: 'clockFar', ask: true };
  }
  const earliest = plusMinutes(from, Math.min(nominalMinutes, settings.clockMinimumMinutes));
  return occurrence >= earliest
    ? { dueAt: occurrence, rule: 'clock', ask: false }
    : { dueAt: earliest, rule: 'clockMinimum', ask: false };
}

/**
 * Fluid that no item of the prescription put there (handed over, or before the first prescription): it is not left
 * without a time. It falls due after the shortest dwell that is prescribed, and the nurse is asked.
 */
function withoutItem(revision: PrescriptionRevision, from: EpochMs, policy: WardPolicy): Planned | null {
  const planned = revision.items.map((item) => byItem(revision, item, from, policy).dueAt);
  if (planned.length === 0) return null;
  const rule = RULE_OF[revision.items[0]!.dwell.by];
  return { dueAt: Math.min(...planned), rule, ask: true };
}

const RULE_OF: Record<DwellRule['by'], Due['rule']> = { length: 'length', clock: 'clock', cycle: 'cycle' };

/** Orders change the dwell inside when they were given: after its fill began and before its drain began. */
function byOrder(state: BedsideState, from: EpochMs, planned: Planned | null): Planned | null {
  const firstFill = state.cavity.state === 'holding' ? state.cavity.fills[0] : undefined;
  const began = firstFill?.startedAt ?? firstFill?.endedAt ?? state.cavity.since;
  const drainBegan = (state.openDwell ?? state.lastDwells[0])?.drains.at(-1)?.startedAt ?? null;
  let result = planned;
  for (const order of state.orders) {
    if (order.endedAt !== null) continue;
    const isOfThisDwell = order.givenAt >= began && (drainBegan === null || order.givenAt > drainBegan);
    const dueAt = dueByOrder(order, { began, from, planned: result, isOfThisDwell });
    if (dueAt !== null) result = { dueAt, rule: 'order', ask: false };
  }
  return result;
}

/** The new due instant that one order gives, or null when it changes nothing. A later order has the last word. */
function dueByOrder(
  { content, givenAt }: Order,
  dwell: { began: EpochMs; from: EpochMs; planned: Planned | null; isOfThisDwell: boolean },
): EpochMs | null {
  const { began, from, planned, isOfThisDwell } = dwell;
  const noLaterThan = (at: EpochMs) => (planned === null || at < planned.dueAt ? at : null);
  switch (content.what) {
    case 'drainNow':
    case 'partialDrain':
      return isOfThisDwell ? noLaterThan(givenAt) : null;
    case 'dueAt':
      return isOfThisDwell ? content.dueAt : null;
    case 'drainAndStayEmpty':
      // A fill begun after that time is the one that ended the order's empty hours.
      return began < content.drainBy ? noLaterThan(content.drainBy) : null;
    case 'sample':
      return noLaterThan(Math.max(givenAt, plusMinutes(from, content.dwellMinutes)));
    case 'rinse':
    case 'oneExchange':
      return null;
  }
}
