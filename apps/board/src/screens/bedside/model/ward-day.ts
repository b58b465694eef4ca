import type { Balance, BedsideState, EpochMs, WardPolicy } from '@slackwater/domain';
import { emptyBalance } from '@slackwater/domain/balance/balance';
import { wardDayAt } from '@slackwater/domain/ward/day';

/**
 * The balance of the ward day that holds `now`. The state keeps the day of its newest entry; once that has passed, the
 * new day stands empty.
 */
export const wardDayNow = (state: BedsideState, policy: WardPolicy, now: EpochMs): Balance => {
  const { from, to } = wardDayAt(now, policy);
  if (state.day.from <= now && now < state.day.to) return state.day;
  return emptyBalance(from, to);
};
