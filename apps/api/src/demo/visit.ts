import { randomUUIDv7 } from 'node:crypto';
import {
  type BagInHand,
  type EpochMs,
  LOOKED_AT,
  MINUTE_MS,
  STANDARD_FORMULARY,
  solutionOf,
  type WardSettings,
} from '@slackwater/domain';
import { composeLabel } from '@slackwater/domain/solution/label/compose-label';
import type { Diary } from './diary.ts';
import { DEMONSTRATION_PRODUCTS } from './products.ts';
import type { ScenarioItem } from './scenario.ts';

/** Which instants a visit has reached; what is missing has not happened yet. */
export type VisitTimes = {
  preparedAt: EpochMs;
  connectedAt?: EpochMs;
  drainStartedAt?: EpochMs;
  drainEndedAt?: EpochMs;
  fillStartedAt?: EpochMs;
  fillEndedAt?: EpochMs;
  closedAt?: EpochMs;
};

export type VisitStory = {
  times: VisitTimes;
  purpose: 'exchange' | 'drainOnly' | 'fillOnly';
  /** What is to go in; null for drain only. */
  item: { id: string; index: number; of: ScenarioItem } | null;
  revisionId: string;
  drainedMl: number | null;
  appearance: 'clear' | 'cloudy';
  /** A second drain brought next to nothing, and the nurse said so. */
  confirmedEmpty: boolean;
  nurse: string;
  /** Login of who checks what is added to a bag. */
  secondPerson: string;
};

const LASTS_MS = 400 * 24 * 60 * MINUTE_MS;

/** The bag that was hung: scanned where its size has a code, else typed. */
function bagOf(item: ScenarioItem, preparedAt: EpochMs): BagInHand {
  const { solutionId, fillMl: labelledMl } = item;
  const expiresOn = new Date(preparedAt + LASTS_MS).toISOString().slice(0, 10);
  const lot = `K${7200 + (labelledMl % 97)}-${solutionId.length}`;
  const bag = { solutionId, labelledMl, expiresOn, lot };
  const product = DEMONSTRATION_PRODUCTS.find((one) => one.solutionId === solutionId && one.labelledMl === labelledMl);
  if (product === undefined) return { ...bag, read: 'typed' };
  const label = composeLabel([
    { ai: '01', value: product.gtin },
    { ai: '17', value: expiresOn.slice(2).replaceAll('-', '') },
    { ai: '10', value: lot },
  ]);
  return { ...bag, read: 'scanned', label };
}

/** Writes one visit, step by step, as far as it has come. @returns its first drain */
export function writeVisit(book: Diary, story: VisitStory, settings: WardSettings): string | null {
  const { times, item, nurse } = story;
  const visitId = randomUUIDv7();
  const bag = item ? bagOf(item.of, times.preparedAt) : null;
  const named = { revisionId: item ? story.revisionId : null, itemId: item?.id ?? null, orderId: null };

  // Before a strong bag the nurse measures the blood pressure: invented, and never low.
  if (item && isStrong(item.of.solutionId, settings)) {
    const pressure = { systolicMmHg: 132, diastolicMmHg: 76, position: 'sitting' } as const;
    book.observe('bloodPressure', times.preparedAt - 2 * MINUTE_MS, nurse, pressure);
  }
  book.step('prepare', times.preparedAt, nurse, visitId, {
    purpose: story.purpose,
    identifiers: ['name', 'dateOfBirth'],
    bag,
    ...named,
    bagChecks: bag && { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null },
    override: null,
  });
  if (times.connectedAt === undefined) return null;
  book.step('connect', times.connectedAt, nurse, visitId, {});

  const drainId = times.drainStartedAt === undefined ? null : writeDrain(book, story, visitId, times.drainStartedAt);

  if (times.fillStartedAt !== undefined && item && bag) {
    const { additives = [] } = item.of;
    const fillId = randomUUIDv7();
    if (additives.length > 0) {
      const asked = { fillId, bag, ...named, prescribedMl: item.of.fillMl, additives };
      const askedId = book.observe('additiveCheckAsked', times.fillStartedAt - MINUTE_MS, nurse, asked, visitId);
      const checked = { askedId, looked: LOOKED_AT, agrees: true, note: null };
      book.observe('additiveChecked', times.fillStartedAt - MINUTE_MS / 2, story.secondPerson, checked, visitId);
    }
    book.step(
      'startFill',
      times.fillStartedAt,
      nurse,
      visitId,
      {
        bag,
        ...named,
        prescribedMl: item.of.fillMl,
        additives,
        flushMl: settings.flushMl,
        sealBroken: true,
        noLeak: true,
        guardOverride: null,
      },
      fillId,
    );
    if (times.fillEndedAt !== undefined) {
      book.step('endFill', times.fillEndedAt, nurse, visitId, {
        infused: { basis: 'wholeBag', labelledMl: item.of.fillMl },
      });
    }
  }

  if (times.closedAt === undefined) return drainId;
  book.step('close', times.closedAt, nurse, visitId, { leftEmpty: item === null });
  const drainedMl = firstDrainMl(story);
  if (drainedMl !== null && times.drainStartedAt !== undefined) {
    const tareG = 98;
    const measure = {
      drain: 1,
      role: 'exact',
      method: 'scale',
      grossG: Math.round((drainedMl + settings.flushMl) * settings.densityGPerMl) + tareG,
      tareG,
      densityGPerMl: settings.densityGPerMl,
      flushIncluded: true,
      flushMl: settings.flushMl,
    } as const;
    book.observe('measure', times.closedAt + 2 * MINUTE_MS, nurse, measure, visitId);
    book.observe('bagFate', times.closedAt + 3 * MINUTE_MS, nurse, { drain: 1, fate: 'discarded' }, visitId);
  }
  return drainId;
}

const isStrong = (solutionId: string, { strongBagGlucoseGPerL }: WardSettings): boolean =>
  (solutionOf(STANDARD_FORMULARY, solutionId)?.glucoseGPerL ?? 0) >= strongBagGlucoseGPerL;

/** What a second drain brings when nothing stayed behind, mL. */
const SECOND_DRAIN_ML = 60;
const COMFORTABLE = { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false };

const firstDrainMl = ({ drainedMl, confirmedEmpty }: VisitStory): number | null =>
  drainedMl !== null && confirmedEmpty ? drainedMl - SECOND_DRAIN_ML : drainedMl;

function writeDrain(book: Diary, story: VisitStory, visitId: string, startedAt: EpochMs): string {
  const { times, nurse, confirmedEmpty } = story;
  const drainId = book.step('startDrain', startedAt, nurse, visitId, {});
  const { drainEndedAt } = times;
  if (drainEndedAt === undefined) return drainId;
  const seenAt = Math.min(startedAt + 5 * MINUTE_MS, drainEndedAt);
  book.observe('appearance', seenAt, nurse, { drain: 1, appearance: [story.appearance], note: null }, visitId);
  book.observe('comfort', seenAt, nurse, { phase: 'drain', comfort: COMFORTABLE }, visitId);
  const stoppedAt = confirmedEmpty ? drainEndedAt - 4 * MINUTE_MS : drainEndedAt;
  book.step('endDrain', stoppedAt, nurse, visitId, { flow: 'stopped' });
  const drainedMl = firstDrainMl(story);
  if (drainedMl !== null) writeReading(book, nurse, visitId, stoppedAt, 1, Math.round(drainedMl / 50) * 50);
  if (!confirmedEmpty) return drainId;

  book.step('startDrain', drainEndedAt - 3 * MINUTE_MS, nurse, visitId, {});
  book.step('endDrain', drainEndedAt, nurse, visitId, { flow: 'stopped' });
  writeReading(book, nurse, visitId, drainEndedAt, 2, SECOND_DRAIN_ML);
  book.observe('cavityConfirmedEmpty', drainEndedAt + MINUTE_MS, nurse, {
    reason: 'secondDrainUnder100Ml',
    note: `Turned on the side, drained again: ${SECOND_DRAIN_ML} mL`,
  });
  return drainId;
}

function writeReading(book: Diary, nurse: string, visitId: string, at: EpochMs, drain: number, volumeMl: number): void {
  const reading = { drain, role: 'reading', method: 'bagMarks', volumeMl, flushIncluded: false, flushMl: 0 } as const;
  book.observe('measure', at + MINUTE_MS / 2, nurse, reading, visitId);
}
