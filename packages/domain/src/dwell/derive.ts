import type { FillInside, Reckoning } from '../cavity/cavity.ts';
import { type ExpectedUf, expectedUf } from '../cavity/expected.ts';
import { confirmEmpty, reckon } from '../cavity/inside.ts';
import { solutionOf } from '../solution/formulary.ts';
import { type EpochMs, minutesBetween } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { DrainOut, Dwell } from './dwell.ts';
import { shortfall } from './short-drain.ts';

/** What is recorded of a dwell; all else follows from it. */
export type DwellFacts = Pick<Dwell, 'id' | 'fills' | 'drains' | 'before' | 'emptyConfirmed' | 'imported'>;

/** A dwell with its sums, from what is recorded of it. Missing volumes stay missing: a sum over one is null. */
export function deriveDwell(facts: DwellFacts, policy: WardPolicy): Dwell {
  const { id, fills, drains, before, emptyConfirmed, imported } = facts;
  const filledMl = sumOrNull(fills.map((fill) => fill.filledMl));
  const drainedMl = drainedSoFar(drains);
  const last = drains.at(-1);
  const drainedAt = last?.endedAt ?? null;
  const expected = expectedByPatient(facts, policy);
  const volumesKnown = filledMl !== null && drainedMl !== null;
  const expectedMl = expected?.ufMl ?? null;
  const short = volumesKnown && shortfall({ filledMl, drainedMl, expectedUfMl: expectedMl }, policy.settings) !== null;
  return {
    id,
    fills,
    drains,
    drainedAt,
    filledMl,
    drainedMl,
    drainMinusFillMl: volumesKnown ? drainedMl - filledMl : null,
    complete: volumesKnown && drainedAt !== null && last?.flow === 'stopped' && !short,
    expectedUfMl: expectedMl,
    expectedUfSdMl: expected?.sdMl ?? null,
    before,
    emptyConfirmed,
    imported,
  };
}

/** What is reckoned to be inside after a dwell; before any of its drains has ended: what was inside before its fill. */
export function reckoningAfter(dwell: Dwell, policy: WardPolicy): Reckoning {
  const ended = dwell.drains.filter((drain) => drain.endedAt !== null);
  const drained: Reckoning =
    ended.length === 0
      ? dwell.before
      : reckon(
          dwell.before,
          {
            filledMl: dwell.filledMl,
            drainedMl: dwell.drainedMl,
            expected: expectedByTable(dwell, policy),
            fills: dwell.fills.length,
            drains: ended.length,
            stopped: ended.at(-1)?.flow === 'stopped',
          },
          policy.settings,
        );
  const { emptyConfirmed } = dwell;
  return emptyConfirmed === null ? drained : confirmEmpty(drained, policy.settings, emptyConfirmed);
}

/** The table's expectation and the patient's own correction. */
function expectedByPatient(facts: DwellFacts, policy: WardPolicy): ExpectedUf | null {
  const byTable = expectedByTable(facts, policy);
  if (byTable === null || facts.fills.length === 0) return byTable;
  return { ufMl: byTable.ufMl + facts.before.ufCorrectionMl, sdMl: byTable.sdMl };
}

/** Each fill from its own end to the start of the first drain. The spreads of one dwell's fills go together. */
function expectedByTable({ fills, drains }: Pick<Dwell, 'fills' | 'drains'>, policy: WardPolicy): ExpectedUf | null {
  const drainStartedAt = drains[0]?.startedAt;
  if (drainStartedAt === undefined) return null;
  let sum: ExpectedUf = { ufMl: 0, sdMl: 0 };
  for (const fill of fills) {
    const one = expectedOfFill(fill, drainStartedAt, policy);
    if (one === null) return null;
    sum = { ufMl: sum.ufMl + one.ufMl, sdMl: sum.sdMl + one.sdMl };
  }
  return sum;
}

function expectedOfFill(fill: FillInside, drainStartedAt: EpochMs, policy: WardPolicy): ExpectedUf | null {
  const solution = solutionOf(policy.formulary, fill.solutionId);
  if (solution === null || fill.filledMl === null || fill.endedAt === null) return null;
  return expectedUf(solution, fill.filledMl, minutesBetween(fill.endedAt, drainStartedAt), policy.settings);
}

function drainedSoFar(drains: readonly DrainOut[]): number | null {
  const ended = drains.filter((drain) => drain.endedAt !== null);
  return ended.length === 0 ? null : sumOrNull(ended.map((drain) => drain.drainedMl));
}

const sumOrNull = (volumes: readonly (number | null)[]): number | null =>
  volumes.reduce((sum, ml) => (sum === null || ml === null ? null : sum + ml), 0);
