import type { BedsideState, Removal } from '../bedside/state.ts';
import { type EpochMs, HOUR_MS } from '../time/instant.ts';
import { mlOf, textOf } from './fact-words.ts';
import type { AlertRule, Span } from './rule.ts';

/** It ends only once the sum is a tenth below the limit. */
const ENDS_AT_SHARE = 0.9;

/**
 * The stretches of time in which the removal of the hours before lies above the limit: it moves when a dwell is drained
 * and when one has become older than the window. Dwells without a volume add nothing and are counted.
 */
export function overRemovalSpans(removals: readonly Removal[], limitMl: number, hours: number): readonly Span[] {
  const windowMs = hours * HOUR_MS;
  const moments = [...new Set(removals.flatMap(({ at }) => [at, at + windowMs]))].sort((a, b) => a - b);
  const spans: Span[] = [];
  let open: Span | null = null;
  let [first, next, removedMl, missing] = [0, 0, 0, 0];
  for (const moment of moments) {
    for (; next < removals.length && removals[next]!.at <= moment; next += 1) {
      removedMl += removals[next]!.removedMl ?? 0;
      missing += removals[next]!.removedMl === null ? 1 : 0;
    }
    for (; first < next && removals[first]!.at <= moment - windowMs; first += 1) {
      removedMl -= removals[first]!.removedMl ?? 0;
      missing -= removals[first]!.removedMl === null ? 1 : 0;
    }
    if (open === null && removedMl > limitMl) open = begun(moment, removals[next - 1]!.dwellId);
    if (open === null) continue;
    if (removedMl <= limitMl * ENDS_AT_SHARE) {
      spans.push({ ...open, until: moment });
      open = null;
    } else {
      open = { ...open, facts: { ...open.facts, ...mostOf(open, removedMl), limitMl, hours, missing } };
    }
  }
  return open === null ? spans : [...spans, open];
}

const begun = (since: EpochMs, dwellId: string): Span => ({
  cause: `removal-${dwellId}`,
  rank: 'high',
  since,
  until: null,
  facts: {},
});

const mostOf = ({ facts }: Span, removedMl: number) => ({
  removedMl: Math.max(removedMl, Number(facts.removedMl ?? 0)),
});

export const overRemoval: AlertRule = {
  spans: ({ prescription, removals }: BedsideState) => {
    const { overRemovalMl: limitMl, overRemovalHours: hours } = prescription?.limits ?? {};
    return limitMl == null || hours == null ? [] : overRemovalSpans(removals, limitMl, hours);
  },
  staysUntilCleared: false,
  ranks: ['high'],
  when: "More came off within the hours of the patient's limit than the physician allows.",
  ends: 'The sum of those hours has fallen to nine tenths of the limit, or the limit is set anew.',
  settings: [],
  why: (facts) =>
    `Removed ${mlOf(facts.removedMl)} within ${textOf(facts.hours)} h; the limit is ${mlOf(facts.limitMl)}.` +
    (facts.missing ? ` ${textOf(facts.missing)} dwells without a volume are not in it.` : ''),
  next: () => 'Call the physician before the next bag. Blood pressure, weight; no strong bag meanwhile.',
  source: "The patient's limit, set by the physician. Int J Nephrol 2011:739794, Table 7.",
};
