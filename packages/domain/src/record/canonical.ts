import type { Entry, Payloads } from './entry.ts';

/**
 * The entries that count, as they count, in the one order in which they are folded: corrections put in the place of
 * what they correct, retracted entries left out, each id once; sorted by happened-at, then along `after`, then position.
 * The result does not depend on the order or the number of times in which the entries arrive.
 */
export function canonical(entries: readonly Entry[]): readonly Entry[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const amendments = amendmentsByTarget([...byId.values()]);
  const counted = [...byId.values()].flatMap((entry) => {
    if (entry.kind === 'corrected' || entry.kind === 'retracted') return [];
    const effective = effectiveEntry(entry, amendments);
    return effective === null ? [] : [effective];
  });
  return alongAfter(counted.sort(byTimeThenPosition));
}

/** Sorts by happened-at, then position, then id (positions of two wards may be alike). */
const byTimeThenPosition = (a: Entry, b: Entry): number =>
  a.happenedAt - b.happenedAt || a.position - b.position || (a.id < b.id ? -1 : 1);

type Amendment = Entry<'corrected'> | Entry<'retracted'>;

function amendmentsByTarget(entries: readonly Entry[]): ReadonlyMap<string, readonly Amendment[]> {
  const byTarget = new Map<string, Amendment[]>();
  for (const entry of entries) {
    if (entry.kind !== 'corrected' && entry.kind !== 'retracted') continue;
    byTarget.set(entry.payload.target, [...(byTarget.get(entry.payload.target) ?? []), entry]);
  }
  for (const amendments of byTarget.values()) amendments.sort((a, b) => a.position - b.position);
  return byTarget;
}

/** What an entry says after all that was written about it; null when it never counted. */
function effectiveEntry(entry: Entry, amendments: ReadonlyMap<string, readonly Amendment[]>): Entry | null {
  let effective: Entry | null = entry;
  let said: Entry = entry;
  while (effective !== null) {
    // A correction or retraction that was itself retracted does not count.
    const standing: Amendment[] = (amendments.get(said.id) ?? []).filter((one) => !isRetracted(one, amendments));
    if (standing.some((one) => one.kind === 'retracted')) return null;
    const correction = standing[0];
    if (correction?.kind !== 'corrected') return effective;
    effective = corrected(effective, correction.payload);
    said = correction;
  }
  return effective;
}

const isRetracted = (entry: Entry, amendments: ReadonlyMap<string, readonly Amendment[]>): boolean =>
  (amendments.get(entry.id) ?? []).some((one) => one.kind === 'retracted' && !isRetracted(one, amendments));

const corrected = (entry: Entry, { payload, happenedAt }: Payloads['corrected']): Entry =>
  // The judge held the new payload against the kind of its target when it was written.
  ({ ...entry, payload, happenedAt }) as Entry;

/** Within one instant a step comes after the step that it names; everything else stays as it was sorted. */
function alongAfter(sorted: readonly Entry[]): readonly Entry[] {
  const result: Entry[] = [];
  let start = 0;
  while (start < sorted.length) {
    let end = start + 1;
    while (end < sorted.length && sorted[end]!.happenedAt === sorted[start]!.happenedAt) end += 1;
    if (end - start === 1) result.push(sorted[start]!);
    else result.push(...chained(sorted.slice(start, end)));
    start = end;
  }
  return result;
}

function chained(sameInstant: readonly Entry[]): readonly Entry[] {
  const waiting = new Map(sameInstant.map((entry) => [entry.id, entry]));
  const result: Entry[] = [];
  while (waiting.size > 0) {
    const ready = [...waiting.values()].find((entry) => entry.after === null || !waiting.has(entry.after));
    // A circle cannot be written (an entry names one that exists); if it came so all the same, the order stays as sorted.
    const next = ready ?? [...waiting.values()][0]!;
    waiting.delete(next.id);
    result.push(next);
  }
  return result;
}
