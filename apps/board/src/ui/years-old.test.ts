import { expect, it } from 'vitest';
import { yearsOld } from './years-old.ts';

it('counts completed years', () => {
  expect(yearsOld('1953-05-17', '2026-05-16')).toBe(72);
  expect(yearsOld('1953-05-17', '2026-05-17')).toBe(73);
  expect(yearsOld('1952-02-29', '2026-02-28')).toBe(73);
  expect(yearsOld('1952-02-29', '2026-03-01')).toBe(74);
});
