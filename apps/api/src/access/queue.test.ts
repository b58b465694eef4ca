import { expect, it } from 'vitest';
import { boundedQueue } from './queue.ts';

it('runs at most so many at once, in the order of their arrival, and takes at most so many', async () => {
  const enqueue = boundedQueue(2, 3);
  const gates = Array.from({ length: 5 }, () => Promise.withResolvers<void>());
  const started: number[] = [];
  const task = (index: number) => async () => {
    started.push(index);
    await gates[index]!.promise;
    return index;
  };
  const results = gates.map((_, index) => enqueue(task(index)));
  expect(enqueue(task(9))).toBeNull();
  expect(started).toEqual([0, 1]);

  gates[1]!.resolve();
  expect(await results[1]).toBe(1);
  await Promise.resolve();
  expect(started).toEqual([0, 1, 2]);

  for (const gate of gates) gate.resolve();
  expect(await Promise.all(results)).toEqual([0, 1, 2, 3, 4]);
  expect(started).toEqual([0, 1, 2, 3, 4]);
});

it('goes on after a task that failed', async () => {
  const enqueue = boundedQueue(1, 1);
  const failed = enqueue(() => Promise.reject(new Error('no')));
  const next = enqueue(async () => 'yes');
  await expect(failed).rejects.toThrow('no');
  expect(await next).toBe('yes');
  expect(await enqueue(async () => 'again')).toBe('again');
});
