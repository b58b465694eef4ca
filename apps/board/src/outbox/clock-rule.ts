import type { Draft, EpochMs } from '@slackwater/domain';
import type { ClockReading, Touch } from './touch.ts';

/** Clocks that differ by less tell the same time for an exchange. */
const SAME_CLOCK_MS = 60_000;

export type ClockVerdict =
  | { is: 'steady' }
  /** Between the touch and now the device's clock moved against the ward's by so much. */
  | { is: 'stepped'; byMs: number };

/**
 * Whether the times of a touch can be trusted once the ward's clock is heard again.
 *
 * Either of two witnesses is enough: the clock that only runs forward counted as much since the touch as the ward's
 * clock did (the device's time of day may have been set meanwhile: no matter), or the difference between the device's
 * time of day and the ward's is what it was at the touch. Where both disagree (a restart or a sleep, and another time
 * of day after it), nobody but the person can know.
 *
 * @param now the ward's time, freshly heard, and the device's clocks at that moment
 */
export const clockVerdict = (touch: Touch, now: { wardAt: EpochMs; clock: ClockReading }): ClockVerdict => {
  const { clock, writtenAt, timesSaid } = touch;
  if (timesSaid || clock === null) return { is: 'steady' };
  if (clock.life === now.clock.life) {
    const counted = now.clock.monotonicAt - clock.monotonicAt;
    if (Math.abs(now.wardAt - writtenAt - counted) <= SAME_CLOCK_MS) return { is: 'steady' };
  }
  const byMs = now.wardAt - now.clock.deviceAt - (writtenAt - clock.deviceAt);
  return Math.abs(byMs) <= SAME_CLOCK_MS ? { is: 'steady' } : { is: 'stepped', byMs };
};

/** "Started 5 min before the touch" is a correction whose own time was stamped as well. */
const moved = (draft: Draft, byMs: number): Draft => {
  const happenedAt = draft.happenedAt + byMs;
  if (draft.kind !== 'corrected') return { ...draft, happenedAt };
  return { ...draft, happenedAt, payload: { ...draft.payload, happenedAt: draft.payload.happenedAt + byMs } };
};

/** The touch with its stamped times moved, and what was typed left alone. */
export const shifted = (touch: Touch, byMs: number): Touch => ({
  ...touch,
  timesSaid: true,
  drafts: touch.drafts.map((draft) => (touch.typed.includes(draft.id) ? draft : moved(draft, byMs))),
});
