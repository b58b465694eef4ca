import { reckoningAfter } from '../dwell/derive.ts';
import type { Dwell } from '../dwell/dwell.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { EmptyReason, Reckoning } from './cavity.ts';

/** How one dwell moved the two figures of what is probably inside; mL, null = not known. */
export type InsideStep = {
  dwellId: string;
  /** Start of its first drain. */
  at: EpochMs;
  filledMl: number | null;
  drainedMl: number | null;
  /** The flow of its last drain ran to a stop; null while it runs. */
  stopped: boolean | null;
  /** Expected ultrafiltration as it was reckoned with, the patient's own correction in it, and its spread. */
  ufMl: number | null;
  ufSdMl: number | null;
  /** That part of it which is the patient's own correction. */
  ufCorrectionMl: number;
  before: Reckoning;
  /** As its drains left it, and as a confirmation of empty then set it anew. */
  after: Reckoning;
  reset: { at: EpochMs; by: EmptyReason } | null;
};

/**
 * How the figures came about, dwell by dwell, from the same sums that the fold makes them of.
 * @param dwells of one patient, oldest first, without a gap
 * @param newestAfter what is reckoned after the newest of them where a later dwell is not among them; the fold's own
 */
export function insideSteps(
  dwells: readonly Dwell[],
  policy: WardPolicy,
  newestAfter: Reckoning | null = null,
): readonly InsideStep[] {
  return dwells.map((dwell, index) => {
    const next = dwells[index + 1];
    const last = dwell.drains.at(-1);
    const hasFill = dwell.fills.length > 0;
    return {
      dwellId: dwell.id,
      at: dwell.drains[0]?.startedAt ?? dwell.drainedAt ?? 0,
      filledMl: dwell.filledMl,
      drainedMl: dwell.drainedMl,
      stopped: last?.endedAt == null ? null : last.flow === 'stopped',
      ufMl: dwell.expectedUfMl,
      ufSdMl: dwell.expectedUfSdMl,
      ufCorrectionMl: hasFill ? dwell.before.ufCorrectionMl : 0,
      before: dwell.before,
      after: next?.before ?? newestAfter ?? reckoningAfter(dwell, policy),
      reset: dwell.emptyConfirmed,
    };
  });
}

/**
 * The steps since the figures were last set anew, oldest first: from the dwell after which a person confirmed empty
 * (that one included, it says why), else from the first dwell of the stay.
 */
export function sinceLastEmpty(steps: readonly InsideStep[]): readonly InsideStep[] {
  const from = steps.findLastIndex(
    ({ reset, before }, index) =>
      reset !== null || (index > 0 && before.sinceEmpty?.by === 'admission' && before.sinceEmpty.dwells === 0),
  );
  return from === -1 ? steps : steps.slice(from);
}
