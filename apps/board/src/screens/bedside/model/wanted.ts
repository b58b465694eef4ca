import type { BedsideState, WardPolicy } from '@slackwater/domain';
import { bagFor, type NextBag } from '@slackwater/domain/prescription/bag-for';

/** Fills that this visit has given already, mL; null = one of them is not known. */
export const givenInVisit = (state: BedsideState): { fills: number; volumeMl: number | null } => {
  const fills =
    state.cavity.state === 'holding' ? state.cavity.fills.filter((fill) => fill.visitId === state.visit?.id) : [];
  const volumeMl = fills.reduce<number | null>(
    (sum, fill) => (sum === null || fill.filledMl === null ? null : sum + fill.filledMl),
    0,
  );
  return { fills: fills.length, volumeMl };
};

/**
 * What this visit is to fill: the order or item that its bag check named. Until something runs in, a newer order (a
 * smaller fill by telephone) stands above it.
 */
export const wantedInVisit = (state: BedsideState, policy: WardPolicy): NextBag | null => {
  const { visit } = state;
  if (!visit || givenInVisit(state).fills === 0) return bagFor(state, policy);
  const item = state.prescription?.items.find((one) => one.id === visit.itemId);
  if (!item || !state.prescription) return null;
  return {
    solutionId: item.solutionId,
    fillMl: item.fillMl,
    additives: item.additives,
    dwellMinutes: item.dwell.by === 'clock' ? null : item.dwell.dwellMinutes,
    revisionId: state.prescription.id,
    itemId: item.id,
    orderId: visit.orderId,
  };
};
