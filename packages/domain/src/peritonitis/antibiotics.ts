import type { BedsideState } from '../bedside/state.ts';
import type { EpochMs } from '../time/instant.ts';
import { dateAt, type IsoDate } from '../time/zone.ts';
import { type Clearing, clearing } from './course.ts';
import { drainsHeld } from './opens-work-up.ts';
import type { Antibiotic, WorkUp } from './work-up.ts';
import { countsOf } from './work-up-standing.ts';

/** Whether the effluent clears, counted from the first day of an antibiotic that the organism answers to. */
export type ClearingStanding =
  | { is: 'noAntibiotic' }
  /** One was started, and nobody said yet that the organism answers to it: nothing is counted from it. */
  | { is: 'answerNotKnown'; what: readonly string[] }
  | { is: 'counted'; since: IsoDate; clearing: Clearing };

/** Of each antibiotic what was said of it last, in the order in which they were first named. */
export function antibioticsNow(antibiotics: readonly Antibiotic[]): readonly Antibiotic[] {
  const byName = new Map<string, Antibiotic>();
  for (const one of antibiotics) byName.set(one.what.trim().toLowerCase(), one);
  return [...byName.values()];
}

/**
 * How a work-up clears. Cloudy now is what the newest drain looked like; where nobody watched that one it is not known,
 * whatever was seen before.
 */
export function clearingStanding(
  workUp: WorkUp,
  state: BedsideState,
  now: EpochMs,
  { zone }: { zone: string },
): ClearingStanding {
  const given = antibioticsNow(workUp.antibiotics);
  if (given.length === 0) return { is: 'noAntibiotic' };
  const since = given
    .filter(({ answers }) => answers === 'yes')
    .map(({ startedOn }) => startedOn)
    .sort()[0];
  if (since === undefined) return { is: 'answerNotKnown', what: given.map(({ what }) => what) };
  const counts = countsOf(workUp).map(({ at, whiteCellsPerUl }) => ({ on: dateAt(at, zone), whiteCellsPerUl }));
  const looks = drainsHeld(state)[0]?.drain.appearance ?? [];
  const cloudyNow = looks.length === 0 ? null : looks.includes('cloudy');
  const { value, issues } = clearing(since, dateAt(now, zone), counts, cloudyNow);
  if (value === null) throw new RangeError(issues[0].message);
  return { is: 'counted', since, clearing: value };
}
