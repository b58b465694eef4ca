import type { AlertMeasuresView, ClearedAlertsView } from '@slackwater/contract';
import { HOUR_MS, measureAlerts, wardDayAt } from '@slackwater/domain';
import type { WardAccess } from '../../access/ward-access.ts';
import { ProblemError } from '../../problems.ts';
import type { Parts } from '../parts.ts';
import { wardOf } from '../wards/wards.repository.ts';
import { clearedSince, onDutyBetween, raisedBetween } from './alerts.repository.ts';

/** More than a person reads; the rest stands in each patient's record. */
const MOST_SHOWN = 200;

/** What ended since the ward day began. */
export async function clearedToday({ pool, policies }: Parts, ward: WardAccess): Promise<ClearedAlertsView> {
  const { policy, now } = await wardOf(pool, policies, ward);
  const { from } = wardDayAt(now, policy);
  const alerts = await clearedSince(pool, ward, from, MOST_SHOWN + 1);
  return { from, alerts: alerts.slice(0, MOST_SHOWN), more: alerts.length > MOST_SHOWN };
}

/** Many times what 200 beds raise in a month at the rate that is aimed at. */
const MOST_COUNTED = 100_000;

/**
 * What the tool says about the alerts of the last `hours`.
 * @throws ProblemError `invalid` when there are more than can be counted: part of them would be a wrong figure
 */
export async function measuresOf(
  { pool, policies }: Parts,
  ward: WardAccess,
  hours: number,
): Promise<AlertMeasuresView> {
  const { now: to } = await wardOf(pool, policies, ward);
  const from = to - hours * HOUR_MS;
  const [alerts, duty] = await Promise.all([
    raisedBetween(pool, ward, from, to, MOST_COUNTED + 1),
    onDutyBetween(pool, ward, from, to),
  ]);
  if (alerts.length > MOST_COUNTED) {
    throw new ProblemError('invalid', `More than ${MOST_COUNTED} alerts were raised in ${hours} h: choose less.`);
  }
  return { from, to, ...measureAlerts(alerts, duty, from, to) };
}
