import { randomUUIDv7 } from 'node:crypto';
import { type EpochMs, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import { shiftAt } from '@slackwater/domain/ward/day';
import { chance } from './chance.ts';
import { diary, type Written } from './diary.ts';
import { writeObservations } from './observations.ts';
import { tellExchanges } from './past.ts';
import type { ScenarioPatient } from './scenario.ts';
import type { StoryContext, Telling } from './telling.ts';

const DAY_MS = 24 * HOUR_MS;
const HISTORY_DAYS = 31;

/** Everything that was ever recorded of one invented patient, as of `now`. */
export function patientStory(patient: ScenarioPatient, patientId: string, context: StoryContext): readonly Written[] {
  const book = diary(patientId);
  const random = chance(Number(patient.bed) * 7919);
  const person = { items: patient.items, ufOffsetMl: random.normal(10, 40) };
  const admittedAt = admission(patient, context.now);
  book.observe('admitted', admittedAt, context.chargeNurse, {
    bed: patient.bed,
    inside: patient.now.is === 'admittedUnknown' ? { cavity: 'notKnown' } : { cavity: 'empty' },
    dialysis: patient.acute ? 'acute' : 'chronic',
  });
  const items = patient.items.map((item) => ({
    ...item,
    id: randomUUIDv7(),
    additives: item.additives ?? [],
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
