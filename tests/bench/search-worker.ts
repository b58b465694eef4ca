// The search in a worker: posts how far it is, then the result; `stop` in the shared cell ends it between two days.
import { parentPort, workerData } from 'node:worker_threads';
import { searchPrescriptions } from '../../packages/domain/src/kinetics/search.ts';
import type { SearchQuestion } from '../../packages/domain/src/kinetics/search-question.ts';

const { question, stop } = workerData as { question: SearchQuestion; stop: SharedArrayBuffer };
const asked = new Int32Array(stop);
const steps = searchPrescriptions(question).value;
if (steps === null) throw new Error('The question was refused.');

const TELL_EVERY = 100;
for (;;) {
  const step = steps.next();
  if (step.done) {
    parentPort?.postMessage({ done: true, tried: step.value.tried });
    break;
  }
  if (Atomics.load(asked, 0) === 1) {
    parentPort?.postMessage({ cancelled: true, tried: step.value.tried });
    break;
  }
  if (step.value.tried % TELL_EVERY === 0) parentPort?.postMessage({ progress: step.value });
}
