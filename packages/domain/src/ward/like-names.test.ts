import { expect, it } from 'vitest';
import { patientOf } from '../testing/row.ts';
import { likeNames } from './like-names.ts';

const likes = (...names: [family: string, given: string][]) =>
  Object.fromEntries(likeNames(names.map(([family, given]) => patientOf({ id: `${family} ${given}`, family, given }))));

it('the same family name is like, whatever its accents, hyphens or case', () => {
  expect(likes(['MÜLLER-LÓPEZ', 'Ada'], ['Mueller', 'Bo'], ['MULLER LOPEZ', 'Cy'])).toEqual({
    'MÜLLER-LÓPEZ Ada': ['MULLER LOPEZ Cy'],
    'MULLER LOPEZ Cy': ['MÜLLER-LÓPEZ Ada'],
  });
});

it('the first three letters and the initial are like; the letters alone are not', () => {
  expect(likes(['HARGROVE', 'Della'], ['HARGREAVE', 'Dora'], ['HARPER', 'Joan'])).toEqual({
    'HARGROVE Della': ['HARGREAVE Dora'],
    'HARGREAVE Dora': ['HARGROVE Della'],
  });
});
