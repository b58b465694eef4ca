import { expectedUf, HOUR_MS, MINUTE_MS, type PrescriptionItem } from '@slackwater/domain';
import { drainedMlOf, dwellMinutesOf, exchangesUpTo, type PastExchange } from './exchanges.ts';
import { newestFill } from './newest-fill.ts';
import { tellNow } from './present.ts';
import type { ScenarioItem, StandingNow } from './scenario.ts';
import { itemOf, type Telling } from './telling.ts';
import { type VisitTimes, writeVisit } from './visit.ts';
import { cloudyExchange, tellPeritonitis } from './work-ups.ts';

/** Older visits stand as rows of a flow sheet; newer ones step by step. */
const STEP_BY_STEP_MS = 30 * HOUR_MS;

/** The visits since the admission, and what is under way now. */
export function tellExchanges(telling: Telling): void {
  const { patient, person, random, policy, admittedAt, now } = telling;
  const newest = newestFill(telling);
  if (!newest) return;
  const exchanges = exchangesUpTo(newest.endedAt, newest.item, admittedAt, person, random, (item, dwellMinutes) =>
    drainedMlOf(item, dwellMinutes, person, random, policy.formulary, policy.settings),
  );
  adjustLastDrains(exchanges, patient.now);
  const isRecent = ({ fill }: PastExchange) => fill.endedAt >= now - STEP_BY_STEP_MS;
  const cloudy = cloudyExchange(telling, exchanges);
  for (const exchange of exchanges) if (!isRecent(exchange)) tellAsRow(telling, exchange, exchange === cloudy);
  let deficitMl = Number.POSITIVE_INFINITY;
  for (const exchange of exchanges.filter(isRecent)) {
    deficitMl += lackingMl(telling, exchange);
    const isUnknown = exchange.drain?.drainedMl === null;
    const confirmedEmpty = isUnknown || (deficitMl > DRAIN_AGAIN_OVER_ML && exchange !== exchanges.at(-1));
    if (confirmedEmpty) deficitMl = 0;
    tellStepByStep(telling, exchange, confirmedEmpty && exchange.drain !== null);
  }
  tellNow(telling, newest);
}

/** So much less than expected, over some dwells, and the nurse drains again to see that nothing stays behind. */
const DRAIN_AGAIN_OVER_ML = 300;

/** What a drain brought less than expected, mL. */
function lackingMl({ patient, policy }: Telling, { drain, fill }: PastExchange): number {
  if (drain === null || drain.drainedMl === null) return 0;
  const before = (fill.item + patient.items.length - 1) % patient.items.length;
  const { solutionId, fillMl } = patient.items[before] as ScenarioItem;
  const solution = policy.formulary.find((one) => one.id === solutionId);
  const expected = solution
    ? expectedUf(solution, fillMl, dwellMinutesOf(patient.items, before), policy.settings)
    : null;
  return fillMl + (expected?.ufMl ?? 0) - drain.drainedMl;
}

function adjustLastDrains(exchanges: PastExchange[], state: StandingNow): void {
  const back = (n: number) => exchanges.at(-n)?.drain;
  const last = back(1);
  if (state.is === 'dwelling' && state.lastDrainShortByMl && last?.drainedMl)
    last.drainedMl -= state.lastDrainShortByMl;
  const missing = state.is === 'dwellingByClock' && state.missingDrainBack ? back(state.missingDrainBack) : null;
  if (missing) missing.drainedMl = null;
}

function tellAsRow(telling: Telling, { drain, fill }: PastExchange, cloudy: boolean): void {
  const { book, patient, items } = telling;
  const item = items[fill.item] as PrescriptionItem;
  const drainId = book.observe('imported', fill.endedAt, patient.nurse, {
    drainStartedAt: drain?.startedAt ?? null,
    drainEndedAt: drain?.endedAt ?? null,
    drainedMl: drain?.drainedMl ?? null,
    appearance: drain ? [cloudy ? 'cloudy' : 'clear'] : [],
    fillStartedAt: fill.startedAt,
    fillEndedAt: fill.endedAt,
    filledMl: item.fillMl,
    solutionId: item.solutionId,
    note: null,
  });
  if (!cloudy || !drain) return;
  const before = (fill.item + items.length - 1) % items.length;
  const dwellMinutes = dwellMinutesOf(patient.items, before);
  tellPeritonitis(telling, { drainId, startedAt: drain.startedAt, dwellMinutes });
}

function tellStepByStep(telling: Telling, { drain, fill }: PastExchange, confirmedEmpty: boolean): void {
  const begin = drain?.startedAt ?? fill.startedAt;
  const times: VisitTimes = {
    preparedAt: begin - (telling.patient.acute ? 3 : 7) * MINUTE_MS,
    connectedAt: begin - MINUTE_MS,
    ...(drain && { drainStartedAt: drain.startedAt, drainEndedAt: drain.endedAt }),
    fillStartedAt: fill.startedAt,
    fillEndedAt: fill.endedAt,
    closedAt: fill.endedAt + 2 * MINUTE_MS,
  };
  const story = {
    times,
    purpose: drain ? ('exchange' as const) : ('fillOnly' as const),
    item: itemOf(telling, fill.item),
    revisionId: telling.revisionId,
    drainedMl: drain?.drainedMl ?? null,
    appearance: 'clear' as const,
    confirmedEmpty,
    nurse: telling.patient.nurse,
    secondPerson: telling.chargeNurse,
  };
  writeVisit(telling.book, story, telling.policy.settings);
}
