import { solutionOf } from '../solution/formulary.ts';
import type { Solution } from '../solution/solution.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatClock, formatDate, formatMinutes, formatMl } from '../words/numbers.ts';
import { orderedAdditivesWords } from './additive-words.ts';
import type { DwellRule, PatientLimits, PrescriptionItem, PrescriptionRevision } from './prescription.ts';

type Compared = Pick<PrescriptionRevision, 'items' | 'limits' | 'acute' | 'reviewBy'>;

/** One difference between two revisions; `before` and `after` in words, null = there is none. */
export type RevisionChange = {
  /** Of which item (from 1), or of the prescription as a whole. */
  item: number | null;
  field:
    | 'item'
    | 'solution'
    | 'fill'
    | 'dwell'
    | 'additives'
    | 'window'
    | 'condition'
    | 'acute'
    | 'reviewBy'
    | keyof PatientLimits;
  before: string | null;
  after: string | null;
  /** "Item 3: 2.5 % instead of 1.5 %". */
  words: string;
};

/**
 * What changes from one revision to the next, in the order in which people read it: item by item, then kind and
 * review, then the limits.
 * Items are compared by their place in the day.
 */
export function revisionChanges(
  before: Compared,
  after: Compared,
  { formulary, zone }: Pick<WardPolicy, 'formulary' | 'zone'>,
): readonly RevisionChange[] {
  const places = Math.max(before.items.length, after.items.length);
  const items = Array.from({ length: places }, (_, place) =>
    itemChanges(place + 1, before.items[place], after.items[place], formulary),
  );
  const acute = change(null, 'acute', acuteWords(before), acuteWords(after));
  const reviewOf = ({ reviewBy }: Compared) =>
    reviewBy === null ? null : `${formatDate(reviewBy, zone)} ${formatClock(reviewBy, zone)}`;
  const review = change(null, 'reviewBy', reviewOf(before), reviewOf(after));
  const limits = LIMITS.map(({ field, words }) => change(null, field, words(before.limits), words(after.limits)));
  return [...items.flat(), acute, review, ...limits].filter((one) => one !== null);
}

function itemChanges(
  item: number,
  before: PrescriptionItem | undefined,
  after: PrescriptionItem | undefined,
  formulary: readonly Solution[],
): readonly (RevisionChange | null)[] {
  if (!before || !after) {
    return [
      change(item, 'item', before ? itemWords(before, formulary) : null, after ? itemWords(after, formulary) : null),
    ];
  }
  const strength = ({ solutionId }: PrescriptionItem) => solutionOf(formulary, solutionId)?.strength ?? solutionId;
  const windowOf = ({ windowMinutes }: PrescriptionItem) =>
    windowMinutes === 0 ? null : `${formatMinutes(windowMinutes)} either way`;
  return [
    change(item, 'solution', strength(before), strength(after)),
    change(item, 'fill', formatMl(before.fillMl), formatMl(after.fillMl)),
    change(item, 'dwell', dwellWords(before.dwell), dwellWords(after.dwell)),
    change(item, 'additives', additivesOf(before), additivesOf(after)),
    change(item, 'window', windowOf(before), windowOf(after)),
    change(item, 'condition', before.condition, after.condition),
  ];
}

/** A dwell rule in words: "4 h 30 min", "at 14:00", "1 h cycles: fill 10, dwell 40, drain 10 min". */
export function dwellWords(dwell: DwellRule): string {
  if (dwell.by === 'length') return formatMinutes(dwell.dwellMinutes);
  if (dwell.by === 'clock') return `at ${dwell.at}`;
  const { fillMinutes, dwellMinutes, drainMinutes } = dwell;
  const cycle = formatMinutes(fillMinutes + dwellMinutes + drainMinutes);
  return `${cycle} cycles: fill ${fillMinutes}, dwell ${dwellMinutes}, drain ${drainMinutes} min`;
}

/** An item in words: "2,000 mL of 2.5 %, 4 h 30 min". */
export function itemWords(item: PrescriptionItem, formulary: readonly Solution[]): string {
  const strength = solutionOf(formulary, item.solutionId)?.strength ?? item.solutionId;
  const additives = item.additives.length === 0 ? '' : `, with ${orderedAdditivesWords(item.additives)}`;
  return `${formatMl(item.fillMl)} of ${strength}, ${dwellWords(item.dwell)}${additives}`;
}

const additivesOf = ({ additives }: PrescriptionItem): string | null => orderedAdditivesWords(additives) || null;

const acuteWords = ({ acute }: Compared): string => (acute ? 'acute' : 'chronic');

const numberOf = (value: number | null, unit: string): string | null => (value === null ? null : `${value} ${unit}`);

const LIMITS: readonly { field: keyof PatientLimits; words: (limits: PatientLimits) => string | null }[] = [
  { field: 'mostInsideMl', words: ({ mostInsideMl }) => (mostInsideMl === null ? null : formatMl(mostInsideMl)) },
  { field: 'weightTargetKg', words: ({ weightTargetKg }) => numberOf(weightTargetKg, 'kg') },
  { field: 'weightTargetCavity', words: ({ weightTargetCavity }) => weightTargetCavity },
  { field: 'systolicLowMmHg', words: ({ systolicLowMmHg }) => numberOf(systolicLowMmHg, 'mmHg') },
  { field: 'systolicHighMmHg', words: ({ systolicHighMmHg }) => numberOf(systolicHighMmHg, 'mmHg') },
  { field: 'overRemovalMl', words: ({ overRemovalMl }) => (overRemovalMl === null ? null : formatMl(overRemovalMl)) },
  { field: 'overRemovalHours', words: ({ overRemovalHours }) => numberOf(overRemovalHours, 'h') },
];

const LABEL: Record<RevisionChange['field'], string> = {
  item: 'exchange',
  solution: 'strength',
  fill: 'fill',
  dwell: 'dwell',
  additives: 'additives',
  window: 'window',
  condition: 'condition',
  acute: 'kind',
  reviewBy: 'review by',
  mostInsideMl: 'most inside',
  weightTargetKg: 'weight target',
  weightTargetCavity: 'weight target, cavity',
  systolicLowMmHg: 'systolic pressure, lowest',
  systolicHighMmHg: 'systolic pressure, highest',
  overRemovalMl: 'over-removal',
  overRemovalHours: 'over-removal, within',
};

function change(
  item: number | null,
  field: RevisionChange['field'],
  before: string | null,
  after: string | null,
): RevisionChange | null {
  if (before === after) return null;
  const label = LABEL[field];
  const what =
    after === null
      ? `${label} ended, was ${before}`
      : before === null
        ? `${label} ${after}, new`
        : `${label} ${after} instead of ${before}`;
  const of = item === null ? '' : `Exchange ${item}: `;
  return { item, field, before, after, words: `${of}${what}` };
}
