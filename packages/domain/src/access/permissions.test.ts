import { describe, expect, it } from 'vitest';
import type { EntryKind } from '../record/entry.ts';
import { may, mayWrite, PERMISSIONS, permissionFor } from './permissions.ts';
import type { Permission, Role } from './roles.ts';

const held = (role: Role) => (Object.keys(PERMISSIONS[role]) as Permission[]).filter((one) => may(role, one));

describe('the permission table', () => {
  it('lets a manager make no clinical entry', () => {
    expect(held('manager').sort()).toEqual(
      [
        'changeSettings',
        'importExport',
        'keepSupplies',
        'keepWalls',
        'manageAccounts',
        'readAudit',
        'readBoard',
        'readPatient',
        'readWall',
      ].sort(),
    );
  });
  it('lets the wall read no names', () => {
    expect(held('wall')).toEqual(['readWall']);
  });
  it('gives a charge nurse all that a nurse has, and more', () => {
    expect(held('chargeNurse')).toEqual(expect.arrayContaining(held('nurse')));
    expect(held('chargeNurse').length - held('nurse').length).toBe(8);
  });
  it('leaves prescribing to the nephrologist alone', () => {
    expect((Object.keys(PERMISSIONS) as Role[]).filter((role) => may(role, 'prescribe'))).toEqual(['nephrologist']);
  });
});

describe('writing an entry', () => {
  const telephone = { telephone: { physician: 'Dr', readBack: true } };
  it.each<[Role, EntryKind, Record<string, unknown>, boolean]>([
    ['nurse', 'startDrain', {}, true],
    ['nephrologist', 'startDrain', {}, false],
    ['manager', 'weight', {}, false],
    ['nurse', 'ordered', { telephone: null }, false],
    ['nurse', 'ordered', telephone, true],
    ['manager', 'ordered', telephone, false],
    ['nephrologist', 'ordered', { telephone: null }, true],
    ['nephrologist', 'orderEnded', {}, true],
    ['nurse', 'prescribed', {}, false],
    ['nurse', 'admitted', {}, false],
    ['chargeNurse', 'admitted', {}, true],
    ['chargeNurse', 'alertRaised', {}, false],
    ['manager', 'settingsChanged', {}, true],
    ['wall', 'alertAcknowledged', {}, false],
    // Going on against a stop is the physician's too, the steps around it are not.
    ['nephrologist', 'prepare', { override: null }, false],
    ['nephrologist', 'prepare', { override: { reason: 'the last bag', physician: null } }, true],
    ['nephrologist', 'prepare', { override: null, despiteOrder: { reason: 'put off' } }, true],
    ['nephrologist', 'startFill', { guardOverride: null }, false],
    ['nephrologist', 'startFill', { guardOverride: { reason: 'felt empty', physician: null } }, true],
    ['nephrologist', 'startFill', { guardOverride: null, bagOverride: { reason: 'the last bag' } }, true],
    ['nephrologist', 'calledFirst', { by: 'override' }, true],
    ['nephrologist', 'calledFirst', { by: 'told' }, false],
    ['manager', 'prepare', { override: { reason: 'the last bag', physician: null } }, false],
  ])('%s, %s %j: %s', (role, kind, payload, allowed) => expect(mayWrite(role, kind, payload)).toBe(allowed));

  it('what only the tool writes asks for a permission that nobody has', () => {
    expect([permissionFor('alertRaised'), permissionFor('alertEscalated')]).toEqual([null, null]);
  });
});
