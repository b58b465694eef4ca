import { type EpochMs, HOUR_MS, MINUTE_MS, type Payloads } from '@slackwater/domain';
import type { Diary } from './diary.ts';
import type { PastExchange } from './exchanges.ts';
import type { Telling } from './telling.ts';

const DAY_MS = 24 * HOUR_MS;

/** The drain that raised the suspicion. */
type Suspect = { drainId: string; startedAt: EpochMs; dwellMinutes: number | null };

function openWorkUp(book: Diary, { drainId, startedAt, dwellMinutes }: Suspect, at: EpochMs): string {
  const appearance = ['cloudy'] as const;
  return book.observe('workUpOpened', at, null, { drainId, drainStartedAt: startedAt, appearance, dwellMinutes });
}

const sampleOf = (workUpId: string, { drainId, dwellMinutes }: Suspect): Payloads['sampleTaken'] => ({
  workUpId,
  tests: ['cellCount', 'gramStain', 'culture'],
  drainId,
  dwellMinutes,
  bottles: 2,
  beforeAntibiotic: true,
  bagKeptWhere: 'sluice, shelf 2',
  note: null,
});

const NOTHING_REPORTED = {
  sampleId: null,
  whiteCells: null,
  polymorphPercent: null,
  gramStain: null,
  culture: null,
  note: null,
};

/** The cloudy drain of now: the sample has gone, the results are awaited. */
export function tellOpenWorkUp({ book, patient }: Telling, suspect: Suspect, at: EpochMs): void {
  const workUpId = openWorkUp(book, suspect, at);
  book.observe('sampleTaken', at + 6 * MINUTE_MS, patient.nurse, sampleOf(workUpId, suspect));
  book.observe('told', at + 8 * MINUTE_MS, patient.nurse, {
    whom: 'Dr Imre Solberg',
    toldAt: at + 8 * MINUTE_MS,
    outcome: 'Comes to the bed; antibiotic once the bottles have gone',
    about: 'cloudy',
    finding: { finding: 'cloudy', cause: suspect.drainId },
  });
}

/** Which exchange of the past began the peritonitis that the scenario tells of; null = none did. */
export const cloudyExchange = ({ patient, now }: Telling, exchanges: readonly PastExchange[]): PastExchange | null =>
  patient.peritonitisDaysAgo === undefined
    ? null
    : (exchanges.find(({ drain }) => drain !== null && drain.startedAt >= now - patient.peritonitisDaysAgo! * DAY_MS) ??
      null);

/** A peritonitis of some days ago, from the cloudy drain to its conclusion, with the counts of its days 1, 3 and 5. */
export function tellPeritonitis({ book, patient, nephrologist }: Telling, suspect: Suspect): void {
  const at = suspect.startedAt + 20 * MINUTE_MS;
  const workUpId = openWorkUp(book, suspect, at);
  const report = (after: EpochMs, result: Partial<Payloads['resultReported']>) =>
    book.observe('resultReported', at + after, patient.nurse, { workUpId, ...NOTHING_REPORTED, ...result });
  book.observe('sampleTaken', at + 10 * MINUTE_MS, patient.nurse, sampleOf(workUpId, suspect));
  report(3 * HOUR_MS, {
    whiteCells: { value: 1.84, unit: '10*9/L' },
    polymorphPercent: 88,
    gramStain: 'no organisms seen',
  });
  book.observe('workUpClosed', at + 4 * HOUR_MS, nephrologist, {
    workUpId,
    conclusion: 'peritonitis',
    reason: 'Two of three criteria; treatment begun',
  });
  const sampleAgain = (after: EpochMs) =>
    book.observe('sampleTaken', at + after, patient.nurse, {
      ...sampleOf(workUpId, { ...suspect, dwellMinutes: null }),
      drainId: null,
      beforeAntibiotic: false,
      bagKeptWhere: null,
    });
  sampleAgain(2 * DAY_MS - HOUR_MS);
  report(2 * DAY_MS, {
    whiteCells: { value: 420, unit: '10*6/L' },
    polymorphPercent: 71,
    culture: { state: 'grown', organisms: ['Staphylococcus epidermidis'] },
  });
  sampleAgain(4 * DAY_MS - HOUR_MS);
  report(4 * DAY_MS, { whiteCells: { value: 64, unit: '10*6/L' }, polymorphPercent: 30 });
}
