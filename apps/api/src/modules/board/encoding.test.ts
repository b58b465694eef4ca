import { expect, it } from 'vitest';
import { encodingFor } from './encoding.ts';

it('takes the best encoding that the browser offers, and none that it refuses', () => {
  expect(encodingFor('gzip, deflate, br, zstd')).toBe('br');
  expect(encodingFor('gzip, br;q=0')).toBe('gzip');
  expect(encodingFor('GZIP;q=0.5')).toBe('gzip');
  expect(encodingFor('gzip;q=0.000, br; q=0')).toBe('identity');
  expect(encodingFor('identity')).toBe('identity');
  expect(encodingFor(undefined)).toBe('identity');
});
