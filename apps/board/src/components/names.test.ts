import { expect, it } from 'vitest';
import { shortNames } from './names.ts';

it('calls staff by the family name, and tells two of one name apart', () => {
  const staff = [
    { accountId: '1', name: 'Nimal Perera', role: 'nurse' },
    { accountId: '2', name: 'Dr Imre Solberg', role: 'nephrologist' },
    { accountId: '3', name: 'Anna Perera', role: 'nurse' },
    { accountId: '2', name: 'Dr Imre Solberg', role: 'chargeNurse' },
  ] as const;
  expect(Object.fromEntries(shortNames(staff))).toEqual({ 1: 'N Perera', 2: 'Solberg', 3: 'A Perera' });
});
