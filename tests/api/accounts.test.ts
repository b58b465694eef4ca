import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Hospital, openHospital, PASSWORD } from './hospital.ts';

let hospital: Hospital;
beforeAll(async () => {
  hospital = await openHospital();
});
afterAll(() => hospital.close());

const account = (over: Record<string, unknown> = {}) => ({
  id: randomUUID(),
  login: `nia-${randomUUID().slice(0, 8)}`,
  name: 'Nia Sorrel',
  password: 'twelve letters',
  manager: false,
  roles: [{ wardId: 'kestrel', role: 'nurse' }],
  ...over,
});

describe('an account', () => {
  it('is made by a manager, and signs in with what it may do', async () => {
    const manager = await hospital.signedIn('manager');
    const wanted = account();
    const made = await manager.post('/api/accounts', wanted);
    expect(made.status).toBe(201);
    expect(made.body).toMatchObject({ id: wanted.id, login: wanted.login, roles: wanted.roles, disabledAt: null });
    expect(made.text).not.toContain('password');

    const nia = hospital.browser();
    const signedIn = await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password });
    expect(signedIn.body.roles).toEqual([{ wardId: 'kestrel', wardName: 'Kestrel Ward', role: 'nurse' }]);
  });

  it('needs a name to sign in with that nobody else has', async () => {
    const manager = await hospital.signedIn('manager');
    const answer = await manager.post('/api/accounts', account({ login: 'nurse' }));
    expect(answer.status).toBe(409);
    expect(answer.body).toMatchObject({ code: 'taken', errors: [{ field: 'login', value: 'nurse' }] });
  });

  it('needs an id that no other account has', async () => {
    const manager = await hospital.signedIn('manager');
    const answer = await manager.post('/api/accounts', account({ id: hospital.accounts.nurse }));
    expect(answer).toMatchObject({ status: 409, body: { code: 'idTaken' } });
  });

  it('has roles on wards that stand, one a ward', async () => {
    const manager = await hospital.signedIn('manager');
    const nowhere = await manager.post('/api/accounts', account({ roles: [{ wardId: 'nowhere', role: 'nurse' }] }));
    expect(nowhere).toMatchObject({ status: 400, body: { errors: [{ field: 'roles', value: 'nowhere' }] } });
    const twice = [
      { wardId: 'kestrel', role: 'nurse' },
      { wardId: 'kestrel', role: 'wall' },
    ];
    expect((await manager.post('/api/accounts', account({ roles: twice }))).status).toBe(400);
    const listed = await manager.get('/api/accounts');
    expect(listed.body.accounts.map((one: { name: string }) => one.name)).not.toContain('nowhere');
  });

  it('that is disabled is signed out everywhere and stays out', async () => {
    const manager = await hospital.signedIn('manager');
    const wanted = account();
    await manager.post('/api/accounts', wanted);
    const nia = hospital.browser();
    await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password });
    expect((await nia.get('/api/session')).status).toBe(200);

    await manager.patch(`/api/accounts/${wanted.id}`, { disabled: true });
    expect((await nia.get('/api/session')).status).toBe(401);
    expect((await nia.get('/api/wards/kestrel/board')).status).toBe(401);
    const again = await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password });
    expect(again).toMatchObject({ status: 401, body: { code: 'wrongSignIn' } });

    await manager.patch(`/api/accounts/${wanted.id}`, { disabled: false });
    expect((await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password })).status).toBe(200);
  });

  it('with a new password is signed out everywhere', async () => {
    const manager = await hospital.signedIn('manager');
    const wanted = account();
    await manager.post('/api/accounts', wanted);
    const nia = hospital.browser();
    await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password });
    await manager.patch(`/api/accounts/${wanted.id}`, { password: 'another password' });
    expect((await nia.get('/api/session')).status).toBe(401);
    expect((await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password })).status).toBe(401);
    expect((await nia.post('/api/sign-in', { login: wanted.login, password: 'another password' })).status).toBe(200);
  });

  it('with other roles has them at once, without a new sign-in', async () => {
    const manager = await hospital.signedIn('manager');
    const wanted = account();
    await manager.post('/api/accounts', wanted);
    const nia = hospital.browser();
    await nia.post('/api/sign-in', { login: wanted.login, password: wanted.password });
    expect((await nia.get('/api/wards/kestrel/beds')).status).toBe(200);
    await manager.patch(`/api/accounts/${wanted.id}`, { roles: [{ wardId: 'merlin', role: 'nurse' }] });
    expect((await nia.get('/api/wards/kestrel/beds')).status).toBe(404);
    expect((await nia.get('/api/wards/merlin/beds')).status).toBe(200);
  });
});

describe('the last manager', () => {
  it('can neither be dismissed nor disabled, and two cannot dismiss each other', async () => {
    const manager = await hospital.signedIn('manager');
    const own = `/api/accounts/${hospital.accounts.manager}`;
    for (const change of [{ manager: false }, { disabled: true }]) {
      expect(await manager.patch(own, change)).toMatchObject({ status: 422, body: { code: 'refused' } });
    }
    const second = account({ manager: true, roles: [] });
    await manager.post('/api/accounts', second);
    const other = hospital.browser();
    await other.post('/api/sign-in', { login: second.login, password: second.password });
    const both = await Promise.all([
      manager.patch(`/api/accounts/${second.id}`, { manager: false }),
      other.patch(own, { manager: false }),
    ]);
    // the slower one is the last manager (422), or by then none any more (403)
    expect(both.filter(({ status }) => status === 200)).toHaveLength(1);
    expect(both.filter(({ status }) => status === 422 || status === 403)).toHaveLength(1);
  });
});

describe('the first manager', () => {
  it('comes by a link that works once, and only where nobody manages yet', async () => {
    const { access } = hospital;
    expect(await access.firstAdministrator.issueToken()).toBeNull();
    await hospital.pool.query('UPDATE account SET manager = false');
    const token = await access.firstAdministrator.issueToken();
    const wanted = { token, login: 'first', name: 'First Manager', password: 'twelve letters' };

    const browser = hospital.browser();
    const wrong = await browser.post('/api/first-administrator', { ...wanted, token: 'x'.repeat(43) });
    expect(wrong).toMatchObject({ status: 410, body: { code: 'linkUsed' } });
    const made = await browser.post('/api/first-administrator', wanted);
    expect(made).toMatchObject({ status: 200, body: { manager: true, account: { login: 'first' } } });
    expect((await browser.get('/api/accounts')).status).toBe(200);

    const again = await hospital.browser().post('/api/first-administrator', { ...wanted, login: 'second' });
    expect(again.status).toBe(410);
    expect(await access.firstAdministrator.make({ login: 'third', name: 'Third', password: PASSWORD })).toBeNull();
  });
});
