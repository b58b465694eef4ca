import { expect, it } from 'vitest';
import { hashWallCode, newWallCode } from './wall-code.ts';

it('is three groups of four that cannot be misread', () => {
  for (let made = 0; made < 200; made++)
    expect(newWallCode()).toMatch(/^[2-9A-HJKMNP-TV-Z]{4}(-[2-9A-HJKMNP-TV-Z]{4}){2}$/);
});

it('is the same however it is typed, and no other', () => {
  const hash = hashWallCode('K7QM-2XRD-9FWT');
  expect(hashWallCode(' k7qm 2xrd9fwt ')).toEqual(hash);
  expect(hashWallCode('K7QM-2XRD-9FWV')).not.toEqual(hash);
});
