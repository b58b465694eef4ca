import type { EntryView } from '@slackwater/contract';
import type { BedsideState, Dwell, Payloads } from '@slackwater/domain';
import { removedWords } from '@slackwater/domain/balance/words';
import { infusedMl, measuredMl } from '@slackwater/domain/cavity/measured';

/** One figure that a correction moves. */
export type Change = { figure: string; now: string; corrected: string };

const dwells = (state: BedsideState): readonly Dwell[] =>
  state.openDwell ? [state.openDwell, ...state.lastDwells] : state.lastDwells;

const moved = (state: BedsideState, dwell: Dwell, byMl: number): readonly Change[] => {
  const removed = dwell.drainMinusFillMl;
  if (removed === null) return [];
  const at = dwell.drainedAt;
  const inDay = at !== null && state.day.from <= at && at < state.day.to;
  return [
    { figure: 'Drain minus fill of that dwell', now: removedWords(removed), corrected: removedWords(removed + byMl) },
    ...(inDay
      ? [
          {
            figure: 'Ward day',
            now: removedWords(state.day.removedMl),
            corrected: removedWords(state.day.removedMl + byMl),
          },
        ]
      : []),
  ];
};

/**
 * What a correction of a volume would move, now and then, for the dwells that the bedside still holds. Empty where it
 * cannot be told beforehand; the record reckons everything anew in any case.
 */
export const whatItChanges = (
  state: BedsideState,
  entry: EntryView,
  before: Readonly<Record<string, unknown>>,
  after: Readonly<Record<string, unknown>>,
): readonly Change[] => {
  if (entry.kind === 'measure') {
    const old = before as unknown as Payloads['measure'];
    const visit = [state.visit, state.lastVisit].find((one) => one?.id === entry.visitId);
    const drain = visit?.drains[old.drain - 1];
    const dwell = dwells(state).find((one) => one.drains.some((each) => each.entryId === drain?.entryId));
    // A reading that an exact measure has replaced moves no sum.
    if (!drain || !dwell || (old.role === 'reading' && drain.exactMl !== null)) return [];
    return moved(state, dwell, measuredMl(after as unknown as Payloads['measure']) - measuredMl(old));
  }
  if (entry.kind === 'endFill') {
    const dwell = dwells(state).find((one) => one.fills.some((fill) => fill.entryId === entry.id));
    const old = infusedMl((before as unknown as Payloads['endFill']).infused);
    const next = infusedMl((after as unknown as Payloads['endFill']).infused);
    return dwell && old !== null && next !== null ? moved(state, dwell, old - next) : [];
  }
  return [];
};
