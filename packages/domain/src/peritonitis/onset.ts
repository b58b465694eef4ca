import type { IsoDate } from '../time/zone.ts';
import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkDate, dayNumber } from '../units/dates.ts';

/**
 * First hospital day on which an infection counts as acquired there; the day of admission is day 1. A setting.
 * Source: CDC, National Healthcare Safety Network, Patient Safety Manual, chapter 2: days 1 and 2 are present on
 * admission, day 3 or later is not.
 */
const HOSPITAL_ONSET_FROM_DAY = 3;

export type Onset = { onset: 'presentOnAdmission' | 'hospitalOnset'; hospitalDay: number };

/**
 * Whether an episode came with the patient or began in hospital. Kept apart in every rate: a ward that admits people
 * *for* peritonitis did not cause it.
 * @param firstSignOn day of the first criterion; may lie before the admission
 */
export const onsetOf = (
  firstSignOn: IsoDate,
  admittedOn: IsoDate,
  hospitalOnsetFromDay: number = HOSPITAL_ONSET_FROM_DAY,
): Computed<Onset> =>
  unlessRefused([...checkDate('firstSignOn', firstSignOn), ...checkDate('admittedOn', admittedOn)], () => {
    const hospitalDay = dayNumber(firstSignOn) - dayNumber(admittedOn) + 1;
    return computed<Onset>({
      onset: hospitalDay >= hospitalOnsetFromDay ? 'hospitalOnset' : 'presentOnAdmission',
      hospitalDay,
    });
  });
