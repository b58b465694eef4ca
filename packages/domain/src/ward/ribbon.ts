import type { BedsideState } from '../bedside/state.ts';
import type { Dwell } from '../dwell/dwell.ts';
import { type EpochMs, HOUR_MS } from '../time/instant.ts';
import type { RibbonPiece } from './board-row.ts';

/** The board's axis begins two hours ago; one more, so that a row need not be sent again as time goes on. */
const BACK_MS = 3 * HOUR_MS;

/**
 * What was inside and when, oldest first, up to what is going on (`to: null`); by the flow's figure. From instants and
 * mL alone: it goes three hours back from the newest thing that happened, so it never lacks what the axis shows.
 */
export function ribbonOf(state: BedsideState): readonly RibbonPiece[] {
  const dwells = [...state.lastDwells].reverse();
  if (state.openDwell !== null && !dwells.some((dwell) => dwell.id === state.openDwell?.id))
    dwells.push(state.openDwell);
  const past = dwells.flatMap((dwell, index) => piecesOf(dwell, dwells[index + 1] ?? null, state));
  const pieces = [...past, ...current(state, dwells.at(-1) ?? null)];
  const newest = pieces.at(-1)?.from ?? 0;
  return pieces.filter((piece) => piece.to === null || piece.to > newest - BACK_MS);
}

/** Fill, dwell, drains of one dwell, and the empty time until the fill of the next. */
function piecesOf(dwell: Dwell, next: Dwell | null, state: BedsideState): RibbonPiece[] {
  const pieces: RibbonPiece[] = [];
  const full = plus(dwell.before.flowMl, dwell.filledMl);
  const left = next === null ? state.inside.flowMl : next.before.flowMl;
  const filled = dwell.fills.at(-1);
  const firstDrain = dwell.drains[0];
  for (const fill of dwell.fills) {
    if (fill.startedAt === null || fill.endedAt === null) continue;
    pieces.push({ from: fill.startedAt, to: fill.endedAt, as: 'filling', fromMl: dwell.before.flowMl, toMl: full });
  }
  const dwelt = filled?.endedAt ?? null;
  if (dwelt !== null && firstDrain !== undefined) {
    pieces.push({ from: dwelt, to: firstDrain.startedAt, as: 'dwelling', fromMl: full, toMl: full });
  }
  for (const drain of dwell.drains) {
    const isLast = drain === dwell.drains.at(-1);
    const toMl = drain.endedAt !== null && isLast ? left : null;
    pieces.push({ from: drain.startedAt, to: drain.endedAt, as: 'draining', fromMl: isLast ? full : null, toMl });
  }
  const emptyFrom = dwell.drains.at(-1)?.endedAt ?? null;
  const refilled = next?.fills[0]?.startedAt ?? null;
  if (emptyFrom !== null && refilled !== null && refilled > emptyFrom) {
    pieces.push({ from: emptyFrom, to: refilled, as: 'empty', fromMl: left, toMl: left });
  }
  return pieces;
}

/** What goes on now. A drain that runs stands among its dwell's pieces already. */
function current({ cavity, visit, inside }: BedsideState, last: Dwell | null): RibbonPiece[] {
  if (last?.drains.at(-1)?.endedAt === null) return [];
  const residual = { fromMl: inside.flowMl, toMl: inside.flowMl };
  const drainedAt = last?.drains.at(-1)?.endedAt ?? null;
  if (visit?.state === 'filling' && visit.fill !== null) {
    const { startedAt, prescribedMl } = visit.fill;
    const from = insideBeforeFill(cavity.since, drainedAt, startedAt);
    const before: RibbonPiece[] = from === null ? [] : [{ from, to: startedAt, as: 'empty', ...residual }];
    const toMl = plus(inside.flowMl, prescribedMl);
    return [...before, { from: startedAt, to: null, as: 'filling', fromMl: inside.flowMl, toMl }];
  }
  if (cavity.state === 'unknown') return [{ from: cavity.since, to: null, as: 'unknown', fromMl: null, toMl: null }];
  if (cavity.state === 'empty') return [{ from: drainedAt ?? cavity.since, to: null, as: 'empty', ...residual }];

  // A drain that did not empty the cavity: what it left dwells on.
  if (last !== null && cavity.fills[0]?.entryId === last.id) {
    return [{ from: drainedAt ?? cavity.since, to: null, as: 'dwelling', ...residual }];
  }
  const { fills } = cavity;
  const filledMl = fills.reduce((sum: number | null, fill) => plus(sum, fill.filledMl), 0);
  const full = plus(inside.flowMl, filledMl);
  const pieces: RibbonPiece[] = [];
  const startedAt = fills[0]?.startedAt ?? null;
  const endedAt = fills.at(-1)?.endedAt ?? cavity.since;
  if (drainedAt !== null && startedAt !== null && startedAt > drainedAt) {
    pieces.push({ from: drainedAt, to: startedAt, as: 'empty', ...residual });
  }
  if (startedAt !== null)
    pieces.push({ from: startedAt, to: endedAt, as: 'filling', fromMl: inside.flowMl, toMl: full });
  return [...pieces, { from: endedAt, to: null, as: 'dwelling', fromMl: full, toMl: full }];
}

function insideBeforeFill(since: EpochMs, drainedAt: EpochMs | null, fillStartedAt: EpochMs): EpochMs | null {
  const from = drainedAt ?? since;
  return from < fillStartedAt ? from : null;
}

const plus = (a: number | null, b: number | null): number | null => (a === null || b === null ? null : a + b);
