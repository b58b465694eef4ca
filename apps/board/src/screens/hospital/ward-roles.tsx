import type { NewAccount } from '@slackwater/contract';
import type { Role } from '@slackwater/domain';
import { useSession } from '../../api/use-session.ts';
import { ROLE_WORDS } from '../../components/role-words.ts';
import { Choice } from '../../ui/choice.tsx';

export type WardRoles = NewAccount['roles'];
type WardRole = WardRoles[number]['role'];

const WARD_ROLES: readonly WardRole[] = ['nurse', 'chargeNurse', 'nephrologist', 'wall'];

/** Narrows a role to one that stands on a ward: managers are of the hospital. */
const isWardRole = (role: Role): role is WardRole => role !== 'manager';

/** The roles of an account that stand on wards. */
export const wardRolesOf = (roles: readonly { wardId: string; role: Role }[]): WardRoles =>
  roles.flatMap(({ wardId, role }) => (isWardRole(role) ? [{ wardId, role }] : []));

/** One role, or none, on each ward of the hospital. */
export const WardRolesChoice = ({ roles, onChange }: { roles: WardRoles; onChange: (roles: WardRoles) => void }) => {
  const wards = useSession().roles.filter(({ role }) => role === 'manager');
  return wards.map(({ wardId, wardName }) => (
    <Choice<WardRole | 'none'>
      key={wardId}
      label={`On ${wardName}`}
      layout="apart"
      value={roles.find((role) => role.wardId === wardId)?.role ?? 'none'}
      onChange={(role) => {
        const others = roles.filter((one) => one.wardId !== wardId);
        onChange(role === 'none' ? others : [...others, { wardId, role }]);
      }}
      options={[
        { value: 'none', label: 'no role' },
        ...WARD_ROLES.map((role) => ({ value: role, label: ROLE_WORDS[role] })),
      ]}
    />
  ));
};
