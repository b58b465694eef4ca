import { type EpochMs, MINUTE_MS } from '@slackwater/domain';
import { dwellMinutesOf } from './exchanges.ts';
import type { ScenarioPatient, StandingNow } from './scenario.ts';
import type { Telling } from './telling.ts';

/** When the newest finished fill ended, and which item it was; null when nothing was ever filled here. */
export function newestFill(telling: Telling): { endedAt: EpochMs; item: number } | null {
  const { patient, now, policy } = telling;
  const state = patient.now;
  const before = (minutes: number) => now - minutes * MINUTE_MS;
  const dwell = (item: number) => dwellMinutesOf(patient.items, item);
  switch (state.is) {
    case 'admittedUnknown':
      return null;
    case 'dwellingByClock':
      return newestByClock(patient, now, policy.zone);
    case 'dwelling':
    case 'holdWithFluid':
    case 'offWardWithFluid':
      return { endedAt: before(dwell(state.item) - state.dueInMinutes), item: state.item };
    case 'empty':
      return { endedAt: before(state.sinceMinutes + 20 + dwell(state.item)), item: state.item };
    case 'holdEmpty':
      return { endedAt: before(state.sinceMinutes + 20 + dwell(0)), item: 0 };
    default:
      return {
        endedAt: before(state.sinceMinutes + minutesBeforeState(state.is) + dwell(state.item)),
        item: state.item,
      };
  }
}

/** From the end of the dwell to the state the visit is in. */
const minutesBeforeState = (is: StandingNow['is']): number =>
  ({ preparing: 2, connected: 6, draining: 7, drained: 23, drainedCloudy: 23, filling: 27 })[is as 'preparing'] ?? 0;

function newestByClock(patient: ScenarioPatient, now: EpochMs, zone: string): { endedAt: EpochMs; item: number } {
  const local = Temporal.Instant.fromEpochMilliseconds(now).toZonedDateTimeISO(zone);
  const past = patient.items.flatMap(({ dwell }, item) =>
    dwell.by !== 'clock'
      ? []
      : [0, 1].map((daysAgo) => ({
          item,
          endedAt: local.subtract({ days: daysAgo }).withPlainTime(dwell.at).epochMilliseconds + 8 * MINUTE_MS,
        })),
  );
  const newest = past.filter((fill) => fill.endedAt < now - 5 * MINUTE_MS).sort((a, b) => b.endedAt - a.endedAt)[0];
  if (!newest) throw new Error(`No clock item of bed ${patient.bed} lies in the past.`);
  return newest;
}
