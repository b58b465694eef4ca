import { expect, it } from 'vitest';
import { besideTarget } from './weight-words.ts';

const empty = { weightTargetKg: 69.9, weightTargetCavity: 'empty' } as const;

it('compares a weight with a target of the same cavity', () => {
  expect(besideTarget({ weightKg: 71.4, weightCavity: 'empty' }, empty)).toBe('; 1.5 kg above the target of 69.9 kg');
  expect(besideTarget({ weightKg: 69.5, weightCavity: 'empty' }, empty)).toBe('; 0.4 kg below the target of 69.9 kg');
  expect(besideTarget({ weightKg: 69.9, weightCavity: 'empty' }, empty)).toBe('; at the target of 69.9 kg');
});

// A fill of 2,000 mL weighs some 2 kg: the same patient would stand above an empty target in the morning, below it at noon.
it('never compares a full cavity with a target for the empty one', () => {
  const words = besideTarget({ weightKg: 71.4, weightCavity: 'full' }, empty);
  expect(words).toBe('; the target of 69.9 kg is for the cavity empty: not compared');
});

it('says nothing of a target that is not set', () => {
  expect(
    besideTarget({ weightKg: 71.4, weightCavity: 'full' }, { weightTargetKg: null, weightTargetCavity: null }),
  ).toBe('');
});
