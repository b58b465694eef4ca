import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { SearchProgress } from '../../packages/domain/src/kinetics/search.ts';
import type { SearchQuestion } from '../../packages/domain/src/kinetics/search-question.ts';

export type Searched = { tried: number; cancelled: boolean; progress: readonly SearchProgress[]; ms: number };

/**
 * Runs a search in a thread of its own.
 * @param cancelAfter cancel once so many days were tried; never when left out
 */
export function searchInWorker(question: SearchQuestion, cancelAfter = Number.POSITIVE_INFINITY): Promise<Searched> {
  const stop = new SharedArrayBuffer(4);
  const begun = performance.now();
  const progress: SearchProgress[] = [];
  const worker = new Worker(join(import.meta.dirname, 'search-worker.ts'), { workerData: { question, stop } });
  return new Promise((resolve, reject) => {
    worker.on('error', reject);
    worker.on('message', (message: { progress?: SearchProgress; tried?: number; cancelled?: true }) => {
      if (message.progress) {
        progress.push(message.progress);
        if (message.progress.tried >= cancelAfter) Atomics.store(new Int32Array(stop), 0, 1);
        return;
      }
      const ms = performance.now() - begun;
      resolve({ tried: message.tried ?? 0, cancelled: message.cancelled === true, progress, ms });
    });
  });
}
