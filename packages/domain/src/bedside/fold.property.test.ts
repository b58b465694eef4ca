import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceOf, isComplete, otherFluidsMl } from '../balance/balance.ts';
import type { Dwell } from '../dwell/dwell.ts';
import type { Entry } from '../record/entry.ts';
import { policyIn } from '../testing/bedside.ts';
import { PATIENT } from '../testing/course.ts';
import { attempts, courseOf } from '../testing/random-course.ts';
import { shiftAt, wardDayAt } from '../ward/day.ts';
import { fold } from './fold.ts';
import type { BedsideState } from './state.ts';

const course = attempts(120);
const inside = fc.constantFrom(
  { cavity: 'empty' } as const,
  { cavity: 'notKnown' } as const,
  { cavity: 'holding', solutionId: 'glucose-1.36', filledMl: 1500, fillEndedAt: null } as const,
);

describe('the fold', () => {
  it('is the same in any order of arrival, and with every entry twice', () => {
    fc.assert(
      fc.property(attempts(120), inside, fc.infiniteStream(fc.nat()), (tried, start, dice) => {
        const course = courseOf(tried, start);
        const { policy } = course;
        const entries = [...course.entries, ...retractions(course.entries, dice)];
        const folded = fold(PATIENT, entries, policy);
        const shuffled = shuffle(entries, dice);
        expect(fold(PATIENT, shuffled, policy)).toEqual(folded);
        expect(fold(PATIENT, [...shuffled, ...entries], policy)).toEqual(folded);
      }),
      { numRuns: 60 },
    );
  });

  it('equals the quick path after every single entry', () => {
    let quick = 0;
    fc.assert(
      fc.property(course, inside, (tried, start) => {
        const { entries, written, policy } = courseOf(tried, start);
        const first = entries.length - written.length;
        for (const [index, one] of written.entries()) {
          if (!one.quick) continue;
          quick += 1;
          const whole = fold(PATIENT, entries.slice(0, first + index + 1), policy).state;
          expect(one.after, `after ${one.entry.kind} (entry ${index})`).toEqual(whole);
        }
      }),
      { numRuns: 60 },
    );
    expect(quick).toBeGreaterThan(500);
  }, 60_000);

  it('keeps the state bounded however long the course', () => {
    fc.assert(
      fc.property(attempts(400), (tried) => {
        const { state } = courseOf(tried);
        expect(state.lastDwells.length).toBeLessThanOrEqual(5);
        expect(state.stayBalance.missing.length).toBeLessThanOrEqual(24);
      }),
      { numRuns: 10 },
    );
  });
});

describe('balances', () => {
  it('conserve the totals however days and shifts cut them', () => {
    const zone = fc.constantFrom('Europe/London', 'America/New_York', 'Australia/Lord_Howe');
    fc.assert(
      fc.property(course, inside, zone, (tried, start, name) => {
        const policy = policyIn(name);
        const { entries } = courseOf(tried, start, policy);
        const { dwells, state } = fold(PATIENT, entries, policy);
        const fluids = entries.flatMap((entry) =>
          entry.kind === 'otherFluid' ? [{ ...entry.payload, at: entry.happenedAt }] : [],
        );
        const all = balanceOf(dwells, fluids, 0, Number.MAX_SAFE_INTEGER);
        for (const cut of [wardDayAt, shiftAt]) {
          const parts = pieces(dwells, fluids, (at) => cut(at, policy)).map(({ from, to }) =>
            balanceOf(dwells, fluids, from, to),
          );
          expect(sum(parts.map((part) => part.removedMl))).toBe(all.removedMl);
          expect(sum(parts.map((part) => part.exchanges))).toBe(all.exchanges);
          expect(sum(parts.map((part) => part.missing.length + part.missingEarlier))).toBe(
            all.missing.length + all.missingEarlier,
          );
          expect(sum(parts.map((part) => otherFluidsMl(part) ?? 0))).toBe(otherFluidsMl(all) ?? 0);
          expect(parts.every(isComplete)).toBe(isComplete(all));
        }
        const since = state.stay!.admittedAt;
        const ofStay = balanceOf(dwells, fluids, since, Number.MAX_SAFE_INTEGER);
        expect({ ...state.stayBalance, from: 0, to: 0 }).toEqual({ ...ofStay, from: 0, to: 0 });
        for (const bucket of [state.day, state.shift]) {
          expect(bucket).toEqual(balanceOf(dwells, fluids, bucket.from, bucket.to));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('conserve the fluid: what went in and what came out, over all dwells and what is inside now', () => {
    fc.assert(
      fc.property(course, (tried) => {
        const { entries, state, policy } = courseOf(tried);
        const { dwells } = fold(PATIENT, entries, policy);
        // Written out from the entries, without the fold: every fill counts once, in a drained dwell or as inside now.
        const filled = entries.flatMap(filledBy);
        const undrained = state.cavity.state === 'holding' && !dwells.some((one) => holdsSame(one, state));
        const inCavity = undrained && state.cavity.state === 'holding' ? state.cavity.fills : [];
        const counted = [...dwells.flatMap((dwell) => dwell.fills), ...inCavity];
        expect(counted.map((fill) => fill.filledMl)).toEqual(filled);
      }),
      { numRuns: 60 },
    );
  });
});

describe('no sequence of allowed steps', () => {
  it('reaches an impossible cavity', () => {
    fc.assert(
      fc.property(course, inside, (tried, start) => {
        for (const { entry, before, after } of courseOf(tried, start).written) {
          expect(impossible(before, after), `${entry.kind} at ${entry.happenedAt}`).toEqual([]);
        }
      }),
      { numRuns: 100 },
    );
  });
});

/** What can never be, said without the fold's own rules. */
function impossible(before: BedsideState, after: BedsideState): readonly string[] {
  const { cavity, inside, visit, openDwell } = after;
  const found: string[] = [];
  const say = (wrong: boolean, what: string) => wrong && found.push(what);
  say(cavity.state === 'holding' && cavity.fills.length === 0, 'holds without a fill');
  if (cavity.state === 'holding') {
    const visits = new Set(cavity.fills.map((fill) => fill.visitId));
    say(visits.size > 1, 'one dwell holds fills of two visits: filled over fluid that nobody drained');
  }
  say(visit?.state === 'filling' && visit.fill === null, 'fills with no fill');
  say(visit !== null && visit.state !== 'filling' && visit.fill !== null, 'a fill runs beside another step');
  const running = visit?.drains.filter((drain) => drain.endedAt === null) ?? [];
  say(running.length > (visit?.state === 'draining' ? 1 : 0), 'a drain runs beside another step');
  say(visit?.state === 'draining' && cavity.state === 'empty', 'drains an empty cavity as empty');
  say(visit === null && openDwell !== null, 'a dwell is open without a visit');
  const newest = openDwell ?? after.lastDwells[0];
  const saidEmpty = newest?.emptyConfirmed !== null || newest.fills.length === 0;
  const becameEmpty = before.cavity.state === 'unknown' && cavity.state === 'empty';
  say(becameEmpty && !saidEmpty, 'an unknown cavity became empty with nobody saying so');
  for (const figure of [inside.bookMl, inside.flowMl])
    say(figure !== null && !(figure >= 0), 'less than nothing inside');
  say(inside.bookMl === null && inside.flowMl !== null, 'one figure known without the other');
  return found;
}

const holdsSame = (dwell: Dwell, { cavity }: BedsideState): boolean =>
  cavity.state === 'holding' && dwell.fills[0]?.entryId === cavity.fills[0]?.entryId;

function filledBy(entry: Entry): (number | null)[] {
  const infused = entry.kind === 'endFill' || entry.kind === 'stop' ? entry.payload.infused : null;
  if (infused === null) return [];
  if (infused.basis === 'notKnown') return [null];
  const ml =
    infused.basis === 'wholeBag' ? infused.labelledMl : infused.basis === 'stated' ? infused.volumeMl : Number.NaN;
  return ml === 0 ? [] : [ml];
}

function pieces(
  dwells: readonly Dwell[],
  fluids: readonly { at: number }[],
  cut: (at: number) => { from: number; to: number },
): readonly { from: number; to: number }[] {
  const instants = [...dwells.flatMap((dwell) => dwell.drainedAt ?? []), ...fluids.map((fluid) => fluid.at)];
  return [...new Map(instants.map((at) => [cut(at).from, cut(at)])).values()];
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** One entry in twelve was a mistake, and so was one retraction in three. */
function retractions(entries: readonly Entry[], dice: fc.Stream<number>): readonly Entry[] {
  const retract = (target: Entry): Entry => ({
    ...target,
    id: `not-${target.id}`,
    kind: 'retracted',
    payload: { target: target.id, reason: 'a slip', enteredAs: null },
    position: target.position + 10_000,
    after: null,
  });
  const first = entries.filter(() => (dice.next().value ?? 0) % 12 === 0).map(retract);
  return [...first, ...first.filter(() => (dice.next().value ?? 0) % 3 === 0).map(retract)];
}

function shuffle<T>(items: readonly T[], dice: fc.Stream<number>): readonly T[] {
  const numbers = dice.take(items.length);
  return [...items]
    .map((item) => ({ item, rank: numbers.next().value ?? 0 }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ item }) => item);
}
