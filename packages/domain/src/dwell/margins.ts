import type { Due } from '../bedside/state.ts';
import { type EpochMs, minutesBetween, plusMinutes } from '../time/instant.ts';
import type { WardSettings } from '../ward/settings.ts';

const between = (least: number, value: number, most: number): number => Math.min(most, Math.max(least, value));

/**
 * When a due instant is soon, overdue and far overdue: shares of the planned time, within the ward's least and most,
 * so that hourly cycles are not for ever "soon". Overdue minutes are counted from due.
 * @param from when the planned time began: the end of the fill, the end of the drain, the start of the hold.
 */
export function withMargins(
  from: EpochMs,
  due: Pick<Due, 'what' | 'dueAt' | 'rule' | 'ask'>,
  settings: WardSettings,
): Due {
  const planned = Math.max(0, minutesBetween(from, due.dueAt));
  const soon = between(settings.soonLeastMinutes, (planned * settings.soonPercent) / 100, settings.soonMostMinutes);
  const overdue = between(
    settings.overdueLeastMinutes,
    (planned * settings.overduePercent) / 100,
    settings.overdueMostMinutes,
  );
  return {
    ...due,
    soonAt: plusMinutes(due.dueAt, -soon),
    overdueAt: plusMinutes(due.dueAt, overdue),
    farOverdueAt: plusMinutes(due.dueAt, 2 * overdue),
  };
}
