import type { EpochMs, Role } from '@slackwater/domain';
import { z } from 'zod';
import { instant, line, uuid, wardId } from './primitives.ts';
import { login, newPassword, roleName } from './session.ts';

/** One role on a ward; managers are of the hospital, not of a ward. */
const wardRole = z.enum(['nurse', 'chargeNurse', 'nephrologist', 'wall']);

const roles = z
  .array(z.strictObject({ wardId, role: wardRole }))
  .max(100)
  .refine((all) => new Set(all.map((one) => one.wardId)).size === all.length, 'one role a ward');

/** `POST /api/accounts` */
export const newAccount = z.strictObject({
  id: uuid,
  login,
  name: line(120),
  password: newPassword,
  manager: z.boolean(),
  roles,
});
export type NewAccount = z.infer<typeof newAccount>;

/** `PATCH /api/accounts/:id`: what is left out stays. `roles` replaces all of them. */
export const accountChange = z.strictObject({
  name: line(120).optional(),
  password: newPassword.optional(),
  manager: z.boolean().optional(),
  roles: roles.optional(),
  /** A disabled account is signed out everywhere and cannot sign in. */
  disabled: z.boolean().optional(),
});
export type AccountChange = z.infer<typeof accountChange>;

export type Account = {
  id: string;
  login: string;
  name: string;
  manager: boolean;
  roles: readonly { wardId: string; role: Role }[];
  disabledAt: EpochMs | null;
  createdAt: EpochMs;
};

export const account: z.ZodType<Account> = z
  .strictObject({
    id: uuid,
    login: z.string(),
    name: z.string(),
    manager: z.boolean(),
    roles: z.array(z.strictObject({ wardId: z.string(), role: roleName })),
    disabledAt: instant.nullable(),
    createdAt: instant,
  })
  .meta({ id: 'Account' });

export type AccountsView = { accounts: readonly Account[] };
