import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Hospital, openHospital } from './hospital.ts';

let hospital: Hospital;
beforeAll(async () => {
  hospital = await openHospital();
});
afterAll(() => hospital.close());

it('tells a manager every ward of the hospital, and a nurse only her own', async () => {
  const rolesOf = async (login: string) => (await (await hospital.signedIn(login)).get('/api/session')).body.roles;
  expect(await rolesOf('manager')).toEqual([
    { wardId: 'kestrel', wardName: 'Kestrel Ward', role: 'manager' },
    { wardId: 'merlin', wardName: 'Merlin Ward', role: 'manager' },
  ]);
  expect(await rolesOf('nurse')).toEqual([{ wardId: 'kestrel', wardName: 'Kestrel Ward', role: 'nurse' }]);
});
