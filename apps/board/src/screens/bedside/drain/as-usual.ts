import type { EpochMs, Visit } from '@slackwater/domain';
import { type Act, act } from '../model/batch.ts';
import { COMFORTABLE } from '../model/words.ts';

/** Clear and comfortable, as one touch says it of the last drain. @param at when it was seen */
export const asUsual = (visit: Visit, at: EpochMs): readonly Act[] => [
  act('appearance', { drain: visit.drains.length, appearance: ['clear'], note: null }, at),
  // What she has already said of the patient stands: "as usual" takes no breathlessness back.
  ...(visit.comfort ? [] : [act('comfort', { phase: 'drain', comfort: COMFORTABLE }, at)]),
];
