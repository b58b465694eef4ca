import type { EpochMs } from '../time/instant.ts';
import { cellsPerUl } from './cell-count-units.ts';
import { CELL_LIMITS, type CellCount, type Criteria, type Findings, peritonitisCriteria } from './criteria.ts';
import type { Culture } from './episode.ts';
import type { LabResult, SaidComfort, Sample, WorkUp } from './work-up.ts';

/** A count that the laboratory reported, in one unit, with the dwell of its sample. */
export type ReportedCount = CellCount & { at: EpochMs; resultId: string };

/** How a work-up stands: each criterion, and what is waited for. */
export type WorkUpStanding = {
  criteria: Criteria;
  metCount: number;
  findings: Findings;
  counts: readonly ReportedCount[];
  /** `sample`: none was taken. `count`, `culture`: asked for and not reported. */
  awaiting: readonly ('sample' | 'count' | 'culture')[];
  /** Since when results are awaited: the first sample; null without one. */
  awaitedSince: EpochMs | null;
};

/** The sample a result belongs to: the one it names, else the last taken before it. */
function sampleOf(result: LabResult, samples: readonly Sample[]): Sample | null {
  if (result.sampleId !== null) return samples.find((sample) => sample.id === result.sampleId) ?? null;
  return samples.findLast((sample) => sample.at <= result.at) ?? null;
}

/** The counts of a work-up, oldest first; one without both figures is none. */
export const countsOf = ({ samples, results }: Pick<WorkUp, 'samples' | 'results'>): readonly ReportedCount[] =>
  results.flatMap((result) => {
    const { whiteCells, polymorphPercent } = result;
    if (whiteCells === null || polymorphPercent === null) return [];
    const whiteCellsPerUl = cellsPerUl(whiteCells.value, whiteCells.unit).value;
    if (whiteCellsPerUl === null) return [];
    const sample = sampleOf(result, samples);
    const dwellMinutes = sample?.dwellMinutes ?? null;
    return [{ whiteCellsPerUl, polymorphPercent, dwellMinutes, at: sample?.at ?? result.at, resultId: result.id }];
  });

/** Grown once is grown; else what was said last; pending once a culture was asked for. */
function cultureOf({ samples, results }: WorkUp): Culture {
  const said = results.flatMap(({ culture }) => (culture === null ? [] : [culture]));
  const grown = said.findLast(({ state }) => state === 'grown');
  const asked = samples.some(({ tests }) => tests.includes('culture'));
  return grown ?? said.at(-1) ?? { state: asked ? 'pending' : 'notTaken' };
}

/** A count out of range is refused at the door, by the same ranges. */
const criteriaWith = (findings: Findings): Criteria => {
  const { value, issues } = peritonitisCriteria(findings);
  if (value === null) throw new RangeError(issues[0].message);
  return value;
};

/** A count that meets the criterion is not unsaid by a later, falling one. */
const tellingCount = (counts: readonly ReportedCount[], findings: Omit<Findings, 'count'>): ReportedCount | null =>
  counts.find((count) => criteriaWith({ ...findings, count }).cells === 'met') ?? counts.at(-1) ?? null;

/** Pain within so long before the drain belongs to it, and all that came after (the tool's own rule). */
const PAIN_BEFORE_MS = 24 * 3_600_000;

/** Where a work-up stands by the three criteria of ISPD 2022, and what is still awaited. */
export function standingOf(workUp: WorkUp, comforts: readonly SaidComfort[]): WorkUpStanding {
  const from = workUp.drainStartedAt - PAIN_BEFORE_MS;
  const until = workUp.closed?.at ?? Number.POSITIVE_INFINITY;
  const pains = comforts.flatMap(({ at, comfort }) =>
    at >= from && at <= until && comfort.pain !== null ? [comfort.pain > 0] : [],
  );
  const known = {
    pain: pains.length === 0 ? null : pains.includes(true),
    // Milky, brown and green are grave for other reasons; whether cells make them so, the count says.
    cloudy: workUp.appearance.includes('cloudy') ? true : null,
    culture: cultureOf(workUp),
  };
  const counts = countsOf(workUp);
  const findings: Findings = { ...known, count: tellingCount(counts, known) };
  const criteria = criteriaWith(findings);
  const asks = (test: 'cellCount' | 'culture') => workUp.samples.some(({ tests }) => tests.includes(test));
  const awaiting: WorkUpStanding['awaiting'] =
    workUp.samples.length === 0
      ? ['sample']
      : [
          ...(counts.length === 0 && asks('cellCount') ? (['count'] as const) : []),
          ...(findings.culture.state === 'pending' && asks('culture') ? (['culture'] as const) : []),
        ];
  const metCount = [criteria.clinical, criteria.cells, criteria.culture].filter((one) => one === 'met').length;
  return { criteria, metCount, findings, counts, awaiting, awaitedSince: workUp.samples[0]?.at ?? null };
}

/**
 * How a sample should be taken so that its count can be judged: after a dwell of 2 h; under that more than 50 %
 * polymorphs count alone; from an empty cavity 1 L is run in and dwells 1–2 h first (ISPD, quoting the 2016 text).
 */
export type SampleAdvice = 'asItIs' | 'shortDwell' | 'dwellNotKnown' | 'emptyCavity';

export function sampleAdvice(dwellMinutes: number | null, cavityIsEmpty: boolean): SampleAdvice {
  if (cavityIsEmpty) return 'emptyCavity';
  if (dwellMinutes === null) return 'dwellNotKnown';
  return dwellMinutes < CELL_LIMITS.leastDwellMinutes ? 'shortDwell' : 'asItIs';
}
