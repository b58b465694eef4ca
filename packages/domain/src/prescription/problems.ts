import { isIcodextrin } from '../caution/icodextrin.ts';
import type { Payloads } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { solutionOf } from '../solution/formulary.ts';
import { isClockTime } from '../time/zone.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { additiveProblems, dwellTooShortFor } from './additive-problems.ts';
import type { DwellRule, PatientLimits, PrescriptionItem } from './prescription.ts';
import { outOfRange } from './ranges.ts';

const MOST_ITEMS = 24;
const MOST_WINDOW_MINUTES = 120;
const DAY_MINUTES = 24 * 60;

/** What is wrong with a prescription, each with its field, its value and what is allowed; [] = it may be written. */
export function prescriptionProblems(payload: Payloads['prescribed'], policy: WardPolicy): readonly Problem[] {
  const { items, limits } = payload;
  return [
    outOfRange('items', items.length, 1, MOST_ITEMS, 'items'),
    ...items.flatMap((item, index) => itemProblems(item, `items[${index}]`, policy)),
    ...items.map((item, index) => tooShortProblem(item, items[(index + 1) % items.length]!, `items[${index}].dwell`)),
    ...dayProblems(items),
    ...limitProblems(limits, policy),
    belowFillProblem(limits, items),
  ].filter((problem) => problem !== null);
}

/** An unknown product, as a problem. */
export function solutionProblem(field: string, solutionId: string, policy: WardPolicy): Problem | null {
  if (solutionOf(policy.formulary, solutionId) !== null) return null;
  const allowed = policy.formulary.map((solution) => solution.id).join(', ');
  const message = `${field} is "${solutionId}", which is not in the ward's formulary.`;
  return { code: 'unknown-solution', field, value: solutionId, allowed, message };
}

function itemProblems(item: PrescriptionItem, field: string, policy: WardPolicy): readonly (Problem | null)[] {
  return [
    solutionProblem(`${field}.solutionId`, item.solutionId, policy),
    icodextrinProblem(item, `${field}.dwell`, policy),
    outOfRange(`${field}.fillMl`, item.fillMl, 1, policy.settings.filledMostMl, 'mL'),
    outOfRange(`${field}.windowMinutes`, item.windowMinutes, 0, MOST_WINDOW_MINUTES, 'min'),
    ...dwellProblems(item.dwell, `${field}.dwell`, policy),
    ...additiveProblems(item.additives, `${field}.additives`, policy.settings),
  ];
}

function dwellProblems(dwell: DwellRule, field: string, { settings }: WardPolicy): readonly (Problem | null)[] {
  if (dwell.by === 'clock') return [clockProblem(`${field}.at`, dwell.at)];
  const { dwellLeastMinutes, dwellMostMinutes } = settings;
  const length = outOfRange(`${field}.dwellMinutes`, dwell.dwellMinutes, dwellLeastMinutes, dwellMostMinutes, 'min');
  if (dwell.by === 'length') return [length];
  return [
    length,
    outOfRange(`${field}.fillMinutes`, dwell.fillMinutes, 1, 60, 'min'),
    outOfRange(`${field}.drainMinutes`, dwell.drainMinutes, 1, 60, 'min'),
  ];
}

/**
 * A dwell that ends before an antibiotic of its bag may be drained is refused. By clock the prescription says only the
 * distance to the next fill; a late fill may still leave too little, which the drain then asks about.
 */
function tooShortProblem(
  { additives, dwell }: PrescriptionItem,
  next: PrescriptionItem,
  field: string,
): Problem | null {
  if (dwell.by !== 'clock') return dwellTooShortFor(additives, dwell.dwellMinutes, `${field}.dwellMinutes`);
  if (next.dwell.by !== 'clock') return null;
  return dwellTooShortFor(additives, minutesBetween(dwell.at, next.dwell.at), `${field}.at`);
}

/** From one time of day to the next one like the other; the same time is a day later. */
function minutesBetween(from: string, to: string): number | null {
  if (!isClockTime(from) || !isClockTime(to)) return null;
  const minutesOf = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
  return (minutesOf(to) - minutesOf(from) + DAY_MINUTES) % DAY_MINUTES || DAY_MINUTES;
}

function clockProblem(field: string, clock: string): Problem | null {
  if (isClockTime(clock)) return null;
  const message = `${field} is "${clock}"; allowed is a time of day, 00:00 to 23:59.`;
  return { code: 'not-a-clock-time', field, value: clock, allowed: '00:00 to 23:59', message };
}

/** Rules of the day as a whole: ids once, all by clock or none, clock times in the order of the day. */
function dayProblems(items: readonly PrescriptionItem[]): readonly (Problem | null)[] {
  const ids = items.map((item) => item.id);
  const twice = ids.find((id, index) => ids.indexOf(id) !== index);
  const ways = [...new Set(items.map((item) => item.dwell.by))];
  return [
    twice === undefined
      ? null
      : {
          code: 'twice',
          field: 'items',
          value: twice,
          allowed: 'each item id once',
          message: `items holds "${twice}" twice; each item has an id of its own.`,
        },
    ways.length <= 1 || !ways.includes('clock')
      ? null
      : {
          code: 'mixed-timing',
          field: 'items',
          value: ways.join(', '),
          allowed: 'clock times for the whole day, or none',
          message: `items are timed by ${ways.join(' and ')}; by clock a dwell lasts to the next item's time, so all are by clock or none.`,
        },
    clockOrderProblem(items),
  ];
}

function clockOrderProblem(items: readonly PrescriptionItem[]): Problem | null {
  const clocks = items.flatMap(({ dwell }) => (dwell.by === 'clock' ? [dwell.at] : []));
  // Round the day the times may step back once, over midnight.
  const backSteps = clocks.filter((clock, index) => clock >= (clocks[index + 1] ?? clocks[0]!)).length;
  if (clocks.length < 2 || backSteps <= 1) return null;
  const value = clocks.join(', ');
  const message = `items are at ${value}; clock times follow the day, each once.`;
  return { code: 'clock-order', field: 'items', value, allowed: 'clock times in the order of the day', message };
}

/** A cavity that may hold less than its largest fill could never be filled as prescribed. */
function belowFillProblem({ mostInsideMl }: PatientLimits, items: readonly PrescriptionItem[]): Problem | null {
  const largestMl = Math.max(0, ...items.map((item) => item.fillMl));
  if (mostInsideMl === null || mostInsideMl >= largestMl) return null;
  const allowed = `at least the largest fill, ${largestMl} mL`;
  const message = `limits.mostInsideMl is ${mostInsideMl}; allowed is ${allowed}.`;
  return { code: 'below-fill', field: 'limits.mostInsideMl', value: mostInsideMl, allowed, message };
}

/** Icodextrin is for one long dwell, never for rapid cycles (product information; from memory). */
function icodextrinProblem(item: PrescriptionItem, field: string, { formulary }: WardPolicy): Problem | null {
  if (item.dwell.by !== 'cycle' || !isIcodextrin(item.solutionId, { formulary })) return null;
  const allowed = 'one long dwell by length or clock';
  const message = `${field} cycles icodextrin; allowed is ${allowed}.`;
  return { code: 'icodextrin-in-cycles', field, value: 'cycle', allowed, message };
}

function limitProblems(limits: PatientLimits, { settings }: WardPolicy): readonly (Problem | null)[] {
  const given = (field: keyof PatientLimits, min: number, max: number, unit: string) => {
    const value = limits[field];
    return typeof value === 'number' ? outOfRange(`limits.${field}`, value, min, max, unit) : null;
  };
  return [
    given('mostInsideMl', 1, 2 * settings.filledMostMl, 'mL'),
    given('weightTargetKg', 1, 350, 'kg'),
    given('systolicLowMmHg', 20, 280, 'mmHg'),
    given('systolicHighMmHg', 20, 280, 'mmHg'),
    given('overRemovalMl', 1, 20_000, 'mL'),
    given('overRemovalHours', 1, 168, 'h'),
    togetherProblem(limits, 'overRemovalMl', 'overRemovalHours'),
    togetherProblem(limits, 'weightTargetKg', 'weightTargetCavity'),
    pressureProblem(limits),
  ];
}

/** A volume without its hours, or a weight without full or empty, says nothing. */
function togetherProblem(limits: PatientLimits, one: keyof PatientLimits, other: keyof PatientLimits): Problem | null {
  if ((limits[one] === null) === (limits[other] === null)) return null;
  const missing = limits[one] === null ? one : other;
  const present = missing === one ? other : one;
  const message = `limits.${missing} is missing; it belongs to limits.${present}.`;
  return {
    code: 'missing',
    field: `limits.${missing}`,
    value: null,
    allowed: `given together with ${present}`,
    message,
  };
}

function pressureProblem({ systolicLowMmHg: low, systolicHighMmHg: high }: PatientLimits): Problem | null {
  if (low === null || high === null || low < high) return null;
  const message = `limits.systolicLowMmHg is ${low}; allowed is below systolicHighMmHg, ${high} mmHg.`;
  return { code: 'out-of-order', field: 'limits.systolicLowMmHg', value: low, allowed: `below ${high} mmHg`, message };
}
