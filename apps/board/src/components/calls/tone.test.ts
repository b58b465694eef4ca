import { expect, it } from 'vitest';
import { callSamples, ROUND_SECONDS } from './tone.ts';

const RATE = 48_000;
const samples = callSamples(RATE);
const loudest = (from: number, to: number) =>
  samples
    .slice(Math.round(from * RATE), Math.round(to * RATE))
    .reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);

it('is loud enough and never clips', () => {
  expect(loudest(0, 1.1)).toBeGreaterThan(0.35);
  expect(loudest(0, ROUND_SECONDS)).toBeLessThan(0.5);
});

it('is quiet between the pairs, and most of its round', () => {
  expect(loudest(0.37, 0.59)).toBe(0);
  expect(loudest(1.07, ROUND_SECONDS)).toBe(0);
});

it('begins and ends every note without a step that would click', () => {
  let step = 0;
  for (let index = 1; index < samples.length; index += 1)
    step = Math.max(step, Math.abs(samples[index]! - samples[index - 1]!));
  // the steepest a 784 Hz wave of 0.4 is between two samples
  expect(step).toBeLessThanOrEqual(0.4 * 2 * Math.sin((Math.PI * 784) / RATE) + 1e-3);
  expect([samples[0], samples.at(-1)]).toEqual([0, 0]);
});
