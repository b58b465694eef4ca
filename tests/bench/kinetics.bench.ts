import { beginLearning } from '../../packages/domain/src/kinetics/begin-learning.ts';
import { simulateDay } from '../../packages/domain/src/kinetics/day-model.ts';
import { learnDrain } from '../../packages/domain/src/kinetics/drain-estimator.ts';
import { modelledDrain } from '../../packages/domain/src/kinetics/drain-model.ts';
import { simulateDwell } from '../../packages/domain/src/kinetics/dwell-model.ts';
import { AT, ratesUnder } from '../../packages/domain/src/kinetics/equations.ts';
import { expectedDrain } from '../../packages/domain/src/kinetics/expected-drain.ts';
import { fitAreaOverLength } from '../../packages/domain/src/kinetics/fit-area.ts';
import { fitMembrane } from '../../packages/domain/src/kinetics/fit-membrane.ts';
import { residualAtRest } from '../../packages/domain/src/kinetics/fluid.ts';
import { mixtureOf, runDwell } from '../../packages/domain/src/kinetics/run-dwell.ts';
import type { SearchQuestion } from '../../packages/domain/src/kinetics/search-question.ts';
import { surroundingsOf } from '../../packages/domain/src/kinetics/surroundings.ts';
import { type SurveillanceInput, surveillance } from '../../packages/domain/src/peritonitis/surveillance.ts';
import { STANDARD_FORMULARY } from '../../packages/domain/src/solution/formulary.ts';
import { adaptiveEnd } from '../reference/kinetics-odex.ts';
import { searchInWorker } from './search-in-worker.ts';

/**
 * How long the kinetics take, as processor time and the best of several rounds (the machine may be busy with others), and
 * how a dwell compares with an adaptive solver in the same run.
 */
type Line = { what: string; ms: number; goalMs: number | null; note?: string };

const ROUNDS = 7;

const cpuMs = (times: number, work: () => void): number => {
  for (let i = 0; i < times; i++) work();
  const rounds = Array.from({ length: ROUNDS }, () => {
    const before = process.cpuUsage();
    for (let i = 0; i < times; i++) work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000 / times;
  });
  return Math.min(...rounds);
};

const strong = { glucoseMmolPerL: 214.3, sodiumMmolPerL: 132, icodextrinGPerL: 0 };
const middle = { ...strong, glucoseMmolPerL: 126 };
const icodextrin = { glucoseMmolPerL: 0, sodiumMmolPerL: 133, icodextrinGPerL: 75 };
const dwell = { bag: strong, fillMl: 2000, dwellMinutes: 240, residual: residualAtRest(300) };
const around = surroundingsOf();
const rates = ratesUnder(around);
const mixture = mixtureOf(dwell);
const patient = { residualMl: 200, ureaVolumeMl: 36_000, bodySurfaceM2: 1.73 };
const byDay = { bag: middle, fillMl: 2000, dwellMinutes: 300 };
const day = { ...patient, dwells: [byDay, byDay, byDay, { bag: icodextrin, fillMl: 2000, dwellMinutes: 540 }] };
const { dOverP, drainMl } = simulateDwell(dwell).value!;
const test = { ...dwell, dOverPCreatinine: dOverP.creatinine };
const kind = { bag: middle, fillMl: 2000, dwellMinutes: 540 };
const ward = { residualMl: 200 };
const modelled = modelledDrain(kind, ward).value!;
const learned = learnDrain(beginLearning(), modelled, 2100).value!;

/** Every day of the space, because no day reaches the target. */
const question: SearchQuestion = {
  formulary: STANDARD_FORMULARY,
  fillsMl: [1500, 2000, 2300, 2500],
  mostExchanges: 5,
  nightMinutes: [480, 510, 540, 600],
  exchangeMinutes: 30,
  patient,
  targets: { weeklyKtV: 5 },
  limits: { mostInsideMl: 6000 },
};

/** Ten years of a programme of 500 patients who come and go, with an episode for every second patient-year. */
const programme: SurveillanceInput = {
  periods: Array.from({ length: 500 }, (_, n) => ({
    patientId: `p${n}`,
    from: `20${16 + (n % 8)}-0${1 + (n % 9)}-10`,
    to: `20${18 + (n % 8)}-0${1 + (n % 9)}-09`,
    dialysis: 'chronic' as const,
  })),
  episodes: Array.from({ length: 500 }, (_, n) => ({
    id: `e${n}`,
    patientId: `p${n}`,
    diagnosedOn: `20${17 + (n % 8)}-0${1 + (n % 9)}-15`,
    treatedUntil: `20${17 + (n % 8)}-0${1 + (n % 9)}-28`,
    culture:
      n % 6 === 0 ? ({ state: 'sterile' } as const) : ({ state: 'grown', organisms: [`organism ${n % 7}`] } as const),
    dialysis: 'chronic' as const,
  })),
  window: { from: '2016-01-01', to: '2025-12-31' },
  includeAcute: false,
};

const truth = adaptiveEnd(rates, mixture, 240)[AT.volumeMl]!;
const errorMl = (volumeMl: number): string => `error ${Math.abs(volumeMl - truth).toExponential(0)} mL`;
const ours = cpuMs(1500, () => runDwell(dwell, around));
const theirs = cpuMs(150, () => adaptiveEnd(rates, mixture, 240, 1e-8));
if (surveillance(programme).value?.months.length !== 120) throw new Error('The programme was refused.');
const searched = await searchInWorker(question);
const stopped = await searchInWorker(question, 300);
if (!stopped.cancelled || stopped.tried >= searched.tried) throw new Error('The search did not stop when asked.');

const lines: readonly Line[] = [
  { what: '4 h dwell', ms: ours, goalMs: 0.1, note: errorMl(runDwell(dwell, around).end[AT.volumeMl]!) },
  {
    what: '4 h dwell by odex, tolerance 1e-8',
    ms: theirs,
    goalMs: null,
    note: `${errorMl(adaptiveEnd(rates, mixture, 240, 1e-8)[AT.volumeMl]!)}, ${(theirs / ours).toFixed(2)} × ours`,
  },
  { what: '4 h dwell, input checked', ms: cpuMs(1500, () => simulateDwell(dwell)), goalMs: 0.1 },
  { what: '24 h prescription to steady state', ms: cpuMs(200, () => simulateDay(day)), goalMs: 1.5 },
  { what: 'fit of A0/dx', ms: cpuMs(150, () => fitAreaOverLength(test)), goalMs: 10 },
  {
    what: 'fit of LpS and A0/dx',
    ms: cpuMs(30, () => fitMembrane(test, { drainedMl: drainMl + 100, sdMl: 50 })),
    goalMs: 10,
  },
  { what: 'expected drain, 9 h', ms: cpuMs(200, () => expectedDrain(learned, kind, ward)), goalMs: null },
  { what: 'learning from a drain', ms: cpuMs(2000, () => learnDrain(learned, modelled, 2100)), goalMs: null },
  {
    what: 'search in a worker, 2,000 candidates',
    ms: (searched.ms / searched.tried) * 2000,
    goalMs: 3000,
    note: `wall time, ${searched.tried} tried, ${searched.progress.length} reports; cancelled after ${stopped.tried}`,
  },
  { what: 'surveillance, 10 years, 500 patients', ms: cpuMs(3, () => surveillance(programme)), goalMs: 1000 },
];

console.log('Kinetics, processor ms (best of 7)');
for (const { what, ms, goalMs, note } of lines) {
  const goal = goalMs === null ? '' : `goal ${goalMs}${ms <= goalMs ? '' : ' MISSED'}`;
  console.log(`${what.padEnd(40)}${ms.toPrecision(3).padStart(9)}  ${goal.padEnd(16)}${note ?? ''}`.trimEnd());
}
