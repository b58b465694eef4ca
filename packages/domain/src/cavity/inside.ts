import type { EpochMs } from '../time/instant.ts';
import type { WardSettings } from '../ward/settings.ts';
import type { EmptyReason, Reckoning } from './cavity.ts';
import type { ExpectedUf } from './expected.ts';

/** Spread of a complete drain's residual, mL; wider where much seems left, since a blocked catheter stops too. */
const RESIDUAL_SD_ML = 100;
const DOUBTED_RESIDUAL_SD_ML = 300;
const FAR_ABOVE_RESIDUAL_ML = 300;
/** Spread of a confirmed fill and of one measured drain, mL. */
const FILL_SD_ML = 30;
const DRAIN_SD_ML = 50;

/** Nothing is known: both figures stay so until a person confirms that the cavity is empty. */
export const NOT_KNOWN: Reckoning = {
  bookMl: null,
  flowMl: null,
  flowVarianceMl2: null,
  ufCorrectionMl: 0,
  correctionFrom: null,
  sinceEmpty: null,
};

/** The patient's own correction, and what it came from: it outlives a stay. */
type Learned = Pick<Reckoning, 'ufCorrectionMl' | 'correctionFrom'>;

/** What a person's word "the cavity is empty" makes of it: the ordinary residual, and a new count of what comes off. */
export function startEmpty(
  settings: Pick<WardSettings, 'residualMl'>,
  { at, by }: { at: EpochMs; by: EmptyReason | 'admission' },
  { ufCorrectionMl, correctionFrom }: Learned = NOT_KNOWN,
): Reckoning {
  return {
    bookMl: settings.residualMl,
    flowMl: settings.residualMl,
    flowVarianceMl2: RESIDUAL_SD_ML ** 2,
    ufCorrectionMl,
    correctionFrom,
    sinceEmpty: { at, by, dwells: 0, surplusMl: 0 },
  };
}

/**
 * A person confirmed that the cavity is empty: start anew, and learn the patient's own correction to the expected
 * ultrafiltration, (Σ drained − Σ filled − Σ expected) ÷ dwells since the confirmation before, mL a dwell.
 */
export function confirmEmpty(
  reckoning: Reckoning,
  settings: Pick<WardSettings, 'residualMl'>,
  confirmed: { at: EpochMs; by: EmptyReason },
): Reckoning {
  const since = reckoning.sinceEmpty;
  if (since === null || since.dwells === 0) return startEmpty(settings, confirmed, reckoning);
  const { dwells, surplusMl } = since;
  const correctionFrom = { dwells, surplusMl, since: since.at, until: confirmed.at };
  return startEmpty(settings, confirmed, { ufCorrectionMl: surplusMl / dwells, correctionFrom });
}

/** What one dwell did: mL; null = not known. `expected` by the table, without the patient's own correction. */
export type DwellVolumes = {
  filledMl: number | null;
  /** All its drains together. */
  drainedMl: number | null;
  expected: ExpectedUf | null;
  fills: number;
  drains: number;
  /** The flow of the last drain ran to a stop. */
  stopped: boolean;
};

/**
 * What is probably inside after a dwell's drains, from what was inside before its fill.
 *
 * By the book: B ← max(0, B + fill + U − drained). By the flow: m = r + fill + U against what came; if the flow ran to a
 * stop, the cavity may be empty, and the ordinary residual pulls the estimate by the weight of its own spread.
 * With any volume missing both are not known, never zero. (Method and spreads: the ward's own reckoning, low
 * confidence; check values computed independently.)
 */
export function reckon(before: Reckoning, dwell: DwellVolumes, settings: Pick<WardSettings, 'residualMl'>): Reckoning {
  const { bookMl, flowMl, flowVarianceMl2, ufCorrectionMl, correctionFrom } = before;
  const notKnown = { ...NOT_KNOWN, ufCorrectionMl, correctionFrom };
  const { filledMl, drainedMl, expected } = dwell;
  if (bookMl === null || flowMl === null || flowVarianceMl2 === null) return notKnown;
  if (filledMl === null || drainedMl === null || expected === null) return notKnown;

  const ufMl = expected.ufMl + (dwell.fills > 0 ? ufCorrectionMl : 0);
  const leftMl = flowMl + filledMl + ufMl - drainedMl;
  const leftVariance =
    flowVarianceMl2 + dwell.fills * FILL_SD_ML ** 2 + expected.sdMl ** 2 + dwell.drains * DRAIN_SD_ML ** 2;
  const byFlow = dwell.stopped
    ? pulledToResidual(leftMl, leftVariance, settings.residualMl)
    : { flowMl: Math.max(0, leftMl), flowVarianceMl2: leftVariance };

  const surplusMl = drainedMl - filledMl - expected.ufMl;
  const since = before.sinceEmpty;
  return {
    bookMl: Math.max(0, bookMl + filledMl + ufMl - drainedMl),
    ...byFlow,
    ufCorrectionMl,
    correctionFrom,
    sinceEmpty: since === null ? null : { ...since, dwells: since.dwells + 1, surplusMl: since.surplusMl + surplusMl },
  };
}

function pulledToResidual(leftMl: number, variance: number, residualMl: number) {
  const residualSd = leftMl > residualMl + FAR_ABOVE_RESIDUAL_ML ? DOUBTED_RESIDUAL_SD_ML : RESIDUAL_SD_ML;
  const weight = 1 / variance + 1 / residualSd ** 2;
  return {
    // More may come than was reckoned to be inside; less than nothing cannot stay.
    flowMl: Math.max(0, (leftMl / variance + residualMl / residualSd ** 2) / weight),
    flowVarianceMl2: 1 / weight,
  };
}
