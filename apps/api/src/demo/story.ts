import { randomUUIDv7 } from 'node:crypto';
import { type EpochMs, HOUR_MS, MINUTE_MS, type PrescriptionItem, type WardPolicy } from '@slackwater/domain';
import { shiftAt } from '@slackwater/domain/ward/day';
import { type Chance, chance } from './chance.ts';
import { type Diary, diary, type Written } from './diary.ts';
import { drainedMlOf, dwellMinutesOf, exchangesUpTo, type PastExchange, type Person } from './exchanges.ts';
import { writeObservations } from './observations.ts';
import type { ScenarioPatient, StandingNow } from './scenario.ts';
import { type VisitTimes, writeVisit } from './visit.ts';

const DAY_MS = 24 * HOUR_MS;
/** Older visits stand as rows of a flow sheet; newer ones step by step. */
const STEP_BY_STEP_MS = 30 * HOUR_MS;
const HISTORY_DAYS = 31;

export type StoryContext = {
  now: EpochMs;
  policy: WardPolicy;
  chargeNurse: string;
  nephrologist: string;
};

type Telling = StoryContext & {
  patient: ScenarioPatient;
  book: Diary;
  random: Chance;
  person: Person;
  items: readonly PrescriptionItem[];
  revisionId: string;
  admittedAt: EpochMs;
};

/** Everything that was ever recorded of one invented patient, as of `now`. */
export function patientStory(patient: ScenarioPatient, patientId: string, context: StoryContext): readonly Written[] {
  const book = diary(patientId);
  const random = chance(Number(patient.bed) * 7919);
  const person = { items: patient.items, ufOffsetMl: random.normal(0, 70) };
  const admittedAt = admission(patient, context.now);
  book.observe('admitted', admittedAt, context.chargeNurse, {
    bed: patient.bed,
    inside: patient.now.is === 'admittedUnknown' ? { cavity: 'notKnown' } : { cavity: 'empty' },
    dialysis: patient.acute ? 'acute' : 'chronic',
  });
  const items = patient.items.map((item) => ({
    ...item,
    id: randomUUIDv7(),
    additives: null,
    windowMinutes: item.dwell.by === 'length' ? 30 : 0,
    condition: null,
  }));
  const revisionId = book.observe('prescribed', admittedAt + 10 * MINUTE_MS, context.nephrologist, {
    items,
    limits: {
      mostInsideMl: patient.mostInsideMl,
      weightTargetKg: patient.weightKg,
      weightTargetCavity: 'empty',
      systolicLowMmHg: 100,
      systolicHighMmHg: 160,
      overRemovalMl: patient.acute ? 1500 : null,
      overRemovalHours: patient.acute ? 24 : null,
    },
    acute: patient.acute,
    note: null,
    reviewBy: patient.acute ? context.now + 12 * HOUR_MS : null,
  });
  const telling: Telling = { ...context, patient, book, random, person, items, revisionId, admittedAt };
  assign(telling);
  writeObservations(book, patient, admittedAt, context.now, random);
  tellExchanges(telling);
  return book.written;
}

const admission = (patient: ScenarioPatient, now: EpochMs): EpochMs =>
  patient.now.is === 'admittedUnknown'
    ? now - patient.now.sinceMinutes * MINUTE_MS
    : now - (patient.admittedDaysAgo ?? HISTORY_DAYS) * DAY_MS;

function assign({ book, patient, policy, now, chargeNurse, admittedAt }: Telling): void {
  const shift = shiftAt(now, policy);
  const payload = { accountId: patient.nurse, name: null, from: shift.from, to: shift.to };
  book.observe('assigned', Math.max(admittedAt, shift.from), chargeNurse, payload);
}

/** When the newest finished fill ended, and which item it was; null when nothing was ever filled here. */
function newestFill(telling: Telling): { endedAt: EpochMs; item: number } | null {
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

function tellExchanges(telling: Telling): void {
  const { patient, person, random, policy, admittedAt, now } = telling;
  const newest = newestFill(telling);
  if (!newest) return;
  const exchanges = exchangesUpTo(newest.endedAt, newest.item, admittedAt, person, random, (item, dwellMinutes) =>
    drainedMlOf(item, dwellMinutes, person, random, policy.formulary, policy.settings),
  );
  adjustLastDrains(exchanges, patient.now);
  for (const exchange of exchanges) {
    if (exchange.fill.endedAt < now - STEP_BY_STEP_MS) tellAsRow(telling, exchange);
    else tellStepByStep(telling, exchange);
  }
  tellNow(telling, newest);
}

function adjustLastDrains(exchanges: PastExchange[], state: StandingNow): void {
  const back = (n: number) => exchanges.at(-n)?.drain;
  const last = back(1);
  if (state.is === 'dwelling' && state.lastDrainShortByMl && last?.drainedMl)
    last.drainedMl -= state.lastDrainShortByMl;
  const missing = state.is === 'dwellingByClock' && state.missingDrainBack ? back(state.missingDrainBack) : null;
  if (missing) missing.drainedMl = null;
}

function tellAsRow({ book, patient, items }: Telling, { drain, fill }: PastExchange): void {
  const item = items[fill.item] as PrescriptionItem;
  book.observe('imported', fill.endedAt, patient.nurse, {
    drainStartedAt: drain?.startedAt ?? null,
    drainEndedAt: drain?.endedAt ?? null,
    drainedMl: drain?.drainedMl ?? null,
    appearance: drain ? ['clear'] : [],
    fillStartedAt: fill.startedAt,
    fillEndedAt: fill.endedAt,
    filledMl: item.fillMl,
    solutionId: item.solutionId,
    note: null,
  });
}

const itemOf = ({ items, patient }: Telling, index: number) => {
  const at = index % items.length;
  const item = items[at] as PrescriptionItem;
  return { id: item.id, index: at, of: patient.items[at] as ScenarioPatient['items'][number] };
};

function tellStepByStep(telling: Telling, { drain, fill }: PastExchange): void {
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
    nurse: telling.patient.nurse,
  };
  writeVisit(telling.book, story, telling.policy.settings);
}

/** The visit, hold or absence that is under way at `now`. */
function tellNow(telling: Telling, newest: { endedAt: EpochMs; item: number }): void {
  const { patient, now, book, chargeNurse, nephrologist, policy, random, person, revisionId } = telling;
  const state = patient.now;
  const ago = (minutes: number) => now - minutes * MINUTE_MS;
  const inside = patient.items[newest.item] as ScenarioPatient['items'][number];
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
        nurse: patient.nurse,
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

  switch (state.is) {
    case 'preparing':
      return visit({ preparedAt: ago(state.sinceMinutes) });
    case 'connected':
      return visit({ preparedAt: ago(state.sinceMinutes + 5), connectedAt: ago(state.sinceMinutes) });
    case 'draining':
      return visit({
        preparedAt: ago(state.sinceMinutes + 6),
        connectedAt: ago(state.sinceMinutes + 1),
        drainStartedAt: ago(state.sinceMinutes),
      });
    case 'drained':
    case 'drainedCloudy':
      return visit(
        {
          preparedAt: ago(state.sinceMinutes + 22),
          connectedAt: ago(state.sinceMinutes + 17),
          drainStartedAt: ago(state.sinceMinutes + 16),
          drainEndedAt: ago(state.sinceMinutes),
        },
        state.is === 'drainedCloudy' ? 'cloudy' : 'clear',
      );
    case 'filling':
      return visit({
        preparedAt: ago(state.sinceMinutes + 26),
        connectedAt: ago(state.sinceMinutes + 21),
        drainStartedAt: ago(state.sinceMinutes + 20),
        drainEndedAt: ago(state.sinceMinutes + 4),
        fillStartedAt: ago(state.sinceMinutes),
      });
    case 'empty': {
      const drainBy = ago(state.sinceMinutes);
      const emptyUntil = now + state.nextFillInMinutes * MINUTE_MS;
      const content = { what: 'drainAndStayEmpty' as const, drainBy, emptyUntil };
      book.observe('ordered', ago(state.sinceMinutes + 90), nephrologist, {
        content,
        note: 'Empty for imaging',
        telephone: null,
      });
      return drainedAndLeft(state.sinceMinutes);
    }
    case 'holdEmpty':
      drainedAndLeft(state.sinceMinutes);
      book.observe('held', ago(state.sinceMinutes - 30), nephrologist, {
        reason: state.reason,
        reviewBy: now + state.reviewInHours * HOUR_MS,
      });
      return;
    case 'holdWithFluid':
      book.observe('held', ago(70), nephrologist, {
        reason: state.reason,
        reviewBy: now + state.reviewInHours * HOUR_MS,
      });
      return;
    case 'offWardWithFluid':
      book.observe('leftWard', ago(22), chargeNurse, {
        where: state.where,
        backAbout: now + state.backInMinutes * MINUTE_MS,
      });
      return;
    default:
      return;
  }
}
