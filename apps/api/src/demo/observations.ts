import { type EpochMs, HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type { Chance } from './chance.ts';
import type { Diary } from './diary.ts';
import type { ScenarioPatient } from './scenario.ts';

const DAY_MS = 24 * HOUR_MS;

/** Weight and blood pressure every morning, urine for those who still pass some. */
export function writeObservations(
  book: Diary,
  patient: ScenarioPatient,
  from: EpochMs,
  now: EpochMs,
  random: Chance,
): void {
  const passesUrineMl = random.between(0, 700);
  const firstMorning = now - (now % DAY_MS) + 6 * HOUR_MS + 40 * MINUTE_MS;
  for (let morning = firstMorning - 31 * DAY_MS; morning < now; morning += DAY_MS) {
    const at = morning + Math.round(random.between(0, 45)) * MINUTE_MS;
    if (at <= from + HOUR_MS || at >= now) continue;
    const weightKg = Math.round((patient.weightKg + random.normal(0.6, 0.4)) * 10) / 10;
    book.observe('weight', at, patient.nurse, { weightKg, cavity: 'full' });
    book.observe('bloodPressure', at + 2 * MINUTE_MS, patient.nurse, {
      systolicMmHg: Math.round(random.normal(132, 11)),
      diastolicMmHg: Math.round(random.normal(76, 7)),
      position: 'sitting',
    });
    if (passesUrineMl > 200) {
      const volumeMl = Math.max(50, Math.round(random.normal(passesUrineMl, 90) / 10) * 10);
      book.observe('otherFluid', at + 4 * MINUTE_MS, patient.nurse, {
        direction: 'out',
        route: 'urine',
        volumeMl,
        note: null,
      });
    }
  }
}
