import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { stepsUp } from './owner.ts';
import { spansOf } from './rules.ts';

/**
 * The earliest instant later than now at which, with nothing happening, a condition begins or ends or an alert's life
 * moves on: its acknowledgement or its snooze ends, or it goes a step up. Until then nothing needs to be looked at.
 * @returns null when time alone changes nothing any more.
 */
export function nextChangeAt(state: BedsideState, now: EpochMs, policy: WardPolicy): EpochMs | null {
  const ofConditions = spansOf(state, policy).flatMap((span) => [span.since, span.until]);
  const ofAlerts = state.alerts.flatMap((alert) => [
    alert.owner?.until ?? null,
    alert.snoozedUntil,
    ...stepsUp(alert, policy.settings).map((step) => step.at),
  ]);
  const later = [...ofConditions, ...ofAlerts].filter((at) => at !== null && at > now) as EpochMs[];
  return later.length === 0 ? null : Math.min(...later);
}
