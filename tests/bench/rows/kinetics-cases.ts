import { simulateDwell } from '../../../packages/domain/src/kinetics/dwell-model.ts';
import { ratesUnder } from '../../../packages/domain/src/kinetics/equations.ts';
import { residualAtRest } from '../../../packages/domain/src/kinetics/fluid.ts';
import { mixtureOf } from '../../../packages/domain/src/kinetics/run-dwell.ts';
import type { SearchQuestion } from '../../../packages/domain/src/kinetics/search-question.ts';
import { surroundingsOf } from '../../../packages/domain/src/kinetics/surroundings.ts';
import type { SurveillanceInput } from '../../../packages/domain/src/peritonitis/surveillance.ts';
import { STANDARD_FORMULARY } from '../../../packages/domain/src/solution/formulary.ts';

const strong = { glucoseMmolPerL: 214.3, sodiumMmolPerL: 132, icodextrinGPerL: 0 };
const middle = { ...strong, glucoseMmolPerL: 126 };
const icodextrin = { glucoseMmolPerL: 0, sodiumMmolPerL: 133, icodextrinGPerL: 75 };
export const dwell = { bag: strong, fillMl: 2000, dwellMinutes: 240, residual: residualAtRest(300) };
export const around = surroundingsOf();
export const rates = ratesUnder(around);
export const mixture = mixtureOf(dwell);
const patient = { residualMl: 200, ureaVolumeMl: 36_000, bodySurfaceM2: 1.73 };
const byDay = { bag: middle, fillMl: 2000, dwellMinutes: 300 };
export const day = { ...patient, dwells: [byDay, byDay, byDay, { bag: icodextrin, fillMl: 2000, dwellMinutes: 540 }] };
const { dOverP, drainMl: modelledMl } = simulateDwell(dwell).value!;
export const test = { ...dwell, dOverPCreatinine: dOverP.creatinine };

/** Every day of the space, because no day reaches the target. */
export const question: SearchQuestion = {
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
export const programme: SurveillanceInput = {
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

export const drainMl = modelledMl;
