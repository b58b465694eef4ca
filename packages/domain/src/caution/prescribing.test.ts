import { expect, it } from 'vitest';
import { Course } from '../testing/course.ts';
import type { StandingCaution } from './caution.ts';
import { icodextrinWarnings } from './prescribing.ts';

const said = (...told: readonly (readonly [StandingCaution, boolean])[]) => {
  const course = new Course().admit(0);
  for (const [about, present] of told) course.write('caution', { about, present, note: null }, 5, { visitId: null });
  return icodextrinWarnings(course.state(), ['glucose-1.36', 'icodextrin-7.5'], course.policy);
};

// Not with maltose intolerance or glycogen storage disease (product information; from memory).
it('prescribing icodextrin is warned of what stands against it, and of what nobody was asked', () => {
  expect(said()).toEqual([
    'Maltose or isomaltose intolerance: nobody was asked.',
    'Glycogen storage disease: nobody was asked.',
  ]);
  expect(said(['maltoseIntolerance', true], ['glycogenStorageDisease', false])).toEqual([
    'Maltose or isomaltose intolerance: icodextrin is not for this patient.',
  ]);
  expect(said(['maltoseIntolerance', false], ['glycogenStorageDisease', false])).toEqual([]);
});

it('prescribing glucose is not: the fluid decides', () => {
  const course = new Course().admit(0);
  expect(icodextrinWarnings(course.state(), ['glucose-3.86'], course.policy)).toEqual([]);
});
