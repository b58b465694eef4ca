import { COMMON, setting } from './setting.ts';

/** What is measured on the patient: how old it may be before a bag, and from where on it is said. */
export const OBSERVED = {
  strongBagGlucoseGPerL: setting(
    [35, 10, 60],
    'g/L',
    'T',
    'Common practice; 35 g/L takes in the 3.86 % class and not 2.27 %',
    'From this much anhydrous glucose a bag is strong: the blood pressure is asked for first',
  ),
  pressureOldMinutes: setting(
    [60, 10, 720],
    'min',
    'T',
    COMMON,
    'Before a strong bag a blood pressure older than this is too old: call first',
  ),
  glucoseOldMinutes: setting(
    [60, 10, 720],
    'min',
    'T',
    COMMON,
    'With diabetes a blood glucose older than this is asked for before an exchange',
  ),
  glucoseBlockMinutes: setting(
    [0, 0, 720],
    'min',
    'T',
    COMMON,
    'With diabetes no bag is prepared with a blood glucose older than this; 0 = it is only asked for',
  ),
  icodextrinCautionDays: setting(
    [14, 14, 60],
    'days',
    'M',
    'Product information of icodextrin, from memory: two weeks after the last dwell',
    'So long after icodextrin only a glucose-specific meter is used',
  ),
  temperatureLowC: setting([35, 30, 37], '°C', 'M', 'From memory', 'A temperature below this is said'),
  temperatureHighC: setting([38, 37, 42], '°C', 'M', 'From memory', 'A temperature above this is said'),
  severePainFrom: setting([7, 4, 10], 'of 10', 'T', COMMON, 'Pain from this on is severe: the physician is called'),
};
