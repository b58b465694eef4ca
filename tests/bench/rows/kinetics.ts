import { simulateDay } from '../../../packages/domain/src/kinetics/day-model.ts';
import { simulateDwell } from '../../../packages/domain/src/kinetics/dwell-model.ts';
import { AT } from '../../../packages/domain/src/kinetics/equations.ts';
import { fitAreaOverLength } from '../../../packages/domain/src/kinetics/fit-area.ts';
import { fitMembrane } from '../../../packages/domain/src/kinetics/fit-membrane.ts';
import { runDwell } from '../../../packages/domain/src/kinetics/run-dwell.ts';
import { surveillance } from '../../../packages/domain/src/peritonitis/surveillance.ts';
import { adaptiveEnd } from '../../reference/kinetics-odex.ts';
import type { Measure, Row } from '../harness/measure.ts';
import { searchInWorker } from '../search-in-worker.ts';
import { around, day, drainMl, dwell, mixture, programme, question, rates, test } from './kinetics-cases.ts';

const ROUNDS = 7;

/** Processor time of one, the best of several rounds: the machine may be busy with others. */
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

const line = (what: string, value: number, most: number, beside: string): Measure => ({
  what: `kinetics: ${what}`,
  value,
  unit: 'ms',
  bar: { at: 'most', value: most },
  quartiles: null,
  beside,
});

/** What the sums of the kinetics cost, and how a dwell compares with an adaptive solver (odex) in the same run. */
export const kinetics: Row = {
  name: 'kinetics',
  async run() {
    const truth = adaptiveEnd(rates, mixture, 240)[AT.volumeMl]!;
    const errorMl = (volumeMl: number) => `error ${Math.abs(volumeMl - truth).toExponential(0)} mL`;
    const ours = cpuMs(1500, () => runDwell(dwell, around));
    const theirs = cpuMs(150, () => adaptiveEnd(rates, mixture, 240, 1e-8));
    const ourError = errorMl(runDwell(dwell, around).end[AT.volumeMl]!);
    const theirError = errorMl(adaptiveEnd(rates, mixture, 240, 1e-8)[AT.volumeMl]!);
    const compared = `${ourError}; odex at 1e-8 takes ${(theirs / ours).toFixed(2)} ×, ${theirError}`;
    if (surveillance(programme).value?.months.length !== 120) throw new Error('The programme was refused.');
    const searched = await searchInWorker(question);
    const stopped = await searchInWorker(question, 300);
    if (!stopped.cancelled || stopped.tried >= searched.tried) throw new Error('The search did not stop when asked.');
    const searchMs = (searched.ms / searched.tried) * 2000;
    const drained = { drainedMl: drainMl + 100, sdMl: 50 };
    const cpu = `processor time, best of ${ROUNDS}`;
    return [
      line('4 h dwell', ours, 0.1, `${cpu}; ${compared}`),
      line(
        '4 h dwell, input checked',
        cpuMs(1500, () => simulateDwell(dwell)),
        0.1,
        cpu,
      ),
      line(
        '24 h prescription to steady state',
        cpuMs(200, () => simulateDay(day)),
        1.5,
        cpu,
      ),
      line(
        'fit of A0/dx',
        cpuMs(150, () => fitAreaOverLength(test)),
        10,
        cpu,
      ),
      line(
        'fit of LpS and A0/dx',
        cpuMs(30, () => fitMembrane(test, drained)),
        10,
        cpu,
      ),
      line(
        'search in a worker, 2,000 candidates',
        searchMs,
        3000,
        `wall time, ${searched.tried} tried; stopped after ${stopped.tried} when asked`,
      ),
      line(
        'surveillance, 10 years, 500 patients',
        cpuMs(3, () => surveillance(programme)),
        1000,
        cpu,
      ),
    ];
  },
};
