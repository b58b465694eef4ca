import type { EpochMs } from '../time/instant.ts';
import { dateAt } from '../time/zone.ts';
import { dayNumber } from '../units/dates.ts';
import { formatClock, formatWhole } from '../words/numbers.ts';
import { DAY_3_HIGH_PER_UL, dayFiveFailurePercent, dayThreeSays } from './course.ts';
import { CELL_LIMITS, type Findings } from './criteria.ts';
import type { Culture } from './episode.ts';
import type { WorkUp } from './work-up.ts';
import type { ReportedCount, SampleAdvice, WorkUpStanding } from './work-up-standing.ts';

const clinicalWords = ({ cloudy, pain }: Findings): string =>
  [cloudy ? 'cloudy effluent' : null, pain ? 'pain' : null].filter((one) => one !== null).join(' and ');

export const cultureWords = (culture: Culture): string => {
  switch (culture.state) {
    case 'notTaken':
      return 'no culture taken';
    case 'pending':
      return 'culture pending';
    case 'sterile':
      return 'no growth';
    case 'grown':
      return `grown: ${culture.organisms.join(', ')}`;
  }
};

/** "White cells 480/µL, 82 % polymorphs": always in one unit, whatever the laboratory wrote. */
export const countWords = ({ whiteCellsPerUl, polymorphPercent }: ReportedCount): string =>
  `White cells ${formatWhole(Math.round(whiteCellsPerUl))}/µL, ${formatWhole(Math.round(polymorphPercent))} % polymorphs`;

/** "1 of 2 criteria: cloudy effluent; results awaited since 10:40". */
export function standingWords(
  { criteria, metCount, findings, awaiting, awaitedSince }: WorkUpStanding,
  zone: string,
): string {
  const met = [
    criteria.clinical === 'met' ? clinicalWords(findings) : null,
    criteria.cells === 'met' ? 'cells' : null,
    criteria.culture === 'met' ? 'culture' : null,
  ].filter((one) => one !== null);
  const which = met.length === 0 ? '' : `: ${met.join(', ')}`;
  const head =
    criteria.diagnosis === 'peritonitis'
      ? `Peritonitis by ${metCount} of 3 criteria${which}`
      : criteria.diagnosis === 'notByTheseCriteria'
        ? `Not peritonitis by these criteria, ${metCount} of 2 met${which}`
        : `${metCount} of 2 criteria${which}`;
  if (awaiting.includes('sample')) return `${head}; no sample taken`;
  if (awaiting.length === 0 || awaitedSince === null) return head;
  const what = awaiting.length === 2 ? 'results' : awaiting[0] === 'count' ? 'cell count' : 'culture';
  return `${head}; ${what} awaited since ${formatClock(awaitedSince, zone)}`;
}

export const ADVICE_WORDS: Record<SampleAdvice, string> = {
  asItIs: 'The dwell was 2 h or longer: the count can be judged by both limits.',
  shortDwell: `The dwell was under 2 h: more than ${CELL_LIMITS.polymorphsAbovePercent} % polymorphs count alone.`,
  dwellNotKnown: 'How long it dwelt is not known: a low count does not exclude peritonitis.',
  emptyCavity: 'The cavity is empty: run in 1 L, let it dwell 1–2 h, then take the sample.',
};

/** Which day of the work-up an instant lies on, by the ward's calendar; the day on which it was opened is day 1. */
const dayOf = ({ openedAt }: WorkUp, at: EpochMs, zone: string): number =>
  dayNumber(dateAt(at, zone)) - dayNumber(dateAt(openedAt, zone)) + 1;

/**
 * What the counts of day 3 and day 5 say, the day on which the work-up was opened being day 1 (from memory).
 * Day 3: Chow, CJASN 2006;1:768. Day 5: a cohort of 549 episodes.
 */
export const courseWords = (workUp: WorkUp, counts: readonly ReportedCount[], zone: string): readonly string[] =>
  counts.flatMap((count) => {
    const day = dayOf(workUp, count.at, zone);
    const cells = `${formatWhole(Math.round(count.whiteCellsPerUl))}/µL`;
    if (day === 3) {
      const says = dayThreeSays(count.whiteCellsPerUl).value;
      if (says === null) return [];
      return [
        says.high
          ? `Day 3: ${cells}, at ${formatWhole(DAY_3_HIGH_PER_UL)} or above: about nine times the risk of losing the catheter or dying (Chow, CJASN 2006;1:768).`
          : `Day 3: ${cells}, under ${formatWhole(DAY_3_HIGH_PER_UL)} (Chow, CJASN 2006;1:768).`,
      ];
    }
    const percent = day === 5 ? dayFiveFailurePercent(count.whiteCellsPerUl).value : null;
    return percent === null
      ? []
      : [`Day 5: ${cells}: with such a count treatment failed in ${percent} of 100 (cohort of 549 episodes).`];
  });
