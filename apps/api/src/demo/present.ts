import { type EpochMs, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import { drainedMlOf, dwellMinutesOf } from './exchanges.ts';
import type { ScenarioItem } from './scenario.ts';
import { itemOf, type Telling } from './telling.ts';
import { type VisitTimes, writeVisit } from './visit.ts';
import { tellOpenWorkUp } from './work-ups.ts';

/** The visit, hold or absence that is under way at `now`. */
export function tellNow(telling: Telling, newest: { endedAt: EpochMs; item: number }): void {
  const { patient, now, book, chargeNurse, nephrologist, policy, random, person, revisionId } = telling;
  const state = patient.now;
  const ago = (minutes: number) => now - minutes * MINUTE_MS;
  const inside = patient.items[newest.item] as ScenarioItem;
  const drainedMl = drainedMlOf(
    inside,
    dwellMinutesOf(patient.items, newest.item),
    person,
    random,
    policy.formulary,
    policy.settings,
  );
  const visit = (times: VisitTimes, appearance: 'clear' | 'cloudy' = 'clear', drainOnly = false) =>
    writeVisit(
      book,
      {
        times,
        purpose: drainOnly ? 'drainOnly' : 'exchange',
        item: drainOnly ? null : itemOf(telling, newest.item + 1),
        revisionId,
        drainedMl,
        appearance,
        confirmedEmpty: false,
        nurse: patient.nurse,
        secondPerson: chargeNurse,
      },
      policy.settings,
    );
  const drainedAndLeft = (since: number) =>
    visit(
      {
        preparedAt: ago(since + 24),
        connectedAt: ago(since + 19),
        drainStartedAt: ago(since + 18),
        drainEndedAt: ago(since),
        closedAt: ago(since - 4),
      },
      'clear',
      true,
    );

  const drainedTimes = (since: number) => ({
    preparedAt: ago(since + 22),
    connectedAt: ago(since + 17),
    drainStartedAt: ago(since + 16),
    drainEndedAt: ago(since),
  });

  switch (state.is) {
    case 'preparing':
      visit({ preparedAt: ago(state.sinceMinutes) });
      break;
    case 'connected':
      visit({ preparedAt: ago(state.sinceMinutes + 5), connectedAt: ago(state.sinceMinutes) });
      break;
    case 'draining':
      visit({
        preparedAt: ago(state.sinceMinutes + 6),
        connectedAt: ago(state.sinceMinutes + 1),
        drainStartedAt: ago(state.sinceMinutes),
      });
      break;
    case 'drained':
      visit(drainedTimes(state.sinceMinutes));
      break;
    case 'drainedCloudy': {
      const times = drainedTimes(state.sinceMinutes);
      const startedAt = times.drainStartedAt;
      const drainId = visit(times, 'cloudy');
      if (drainId === null) break;
      const dwellMinutes = Math.round((startedAt - newest.endedAt) / MINUTE_MS);
      tellOpenWorkUp(telling, { drainId, startedAt, dwellMinutes }, startedAt + 5 * MINUTE_MS);
      break;
    }
    case 'filling':
      visit({
        preparedAt: ago(state.sinceMinutes + 26),
        connectedAt: ago(state.sinceMinutes + 21),
        drainStartedAt: ago(state.sinceMinutes + 20),
        drainEndedAt: ago(state.sinceMinutes + 4),
        fillStartedAt: ago(state.sinceMinutes),
      });
      break;
    case 'empty': {
      const drainBy = ago(state.sinceMinutes);
      const emptyUntil = now + state.nextFillInMinutes * MINUTE_MS;
      const away = { where: 'imaging', why: 'abdomen', leavesAt: now + 25 * MINUTE_MS, backAt: now + 70 * MINUTE_MS };
      const content = { what: 'drainAndStayEmpty' as const, drainBy, emptyUntil, away };
      book.observe('ordered', ago(state.sinceMinutes + 90), nephrologist, {
        content,
        note: 'Empty for imaging',
        telephone: null,
      });
      drainedAndLeft(state.sinceMinutes);
      break;
    }
    case 'holdEmpty':
      drainedAndLeft(state.sinceMinutes);
      book.observe('held', ago(state.sinceMinutes - 30), nephrologist, {
        reason: state.reason,
        reviewBy: now + state.reviewInHours * HOUR_MS,
      });
      break;
    case 'holdWithFluid':
      book.observe('held', ago(70), nephrologist, {
        reason: state.reason,
        reviewBy: now + state.reviewInHours * HOUR_MS,
      });
      break;
    case 'offWardWithFluid':
      book.observe('leftWard', ago(22), chargeNurse, {
        where: state.where,
        backAbout: now + state.backInMinutes * MINUTE_MS,
      });
      break;
    default:
      break;
  }
}
