import type { EpochMs, Role } from '@slackwater/domain';
import { z } from 'zod';
import { instant, text, uuid, wardId } from './primitives.ts';
import { login, newPassword, roleName } from './session.ts';

const roles = z.array(z.strictObject({ wardId, role: roleName })).max(100);

/** `POST /api/accounts` */
export const newAccount = z.strictObject({ login, name: text(120), password: newPassword, roles });
export type NewAccount = z.infer<typeof newAccount>;

/** `PATCH /api/accounts/:id`: what is left out stays. `roles` replaces all of them. */
export const accountChange = z.strictObject({
  name: text(120).optional(),
  password: newPassword.optional(),
  roles: roles.optional(),
  /** A disabled account is signed out everywhere and cannot sign in. */
  disabled: z.boolean().optional(),
});
export type AccountChange = z.infer<typeof accountChange>;

export type Account = {
  id: string;
  login: string;
  name: string;
  roles: readonly { wardId: string; role: Role }[];
  disabledAt: EpochMs | null;
  createdAt: EpochMs;
};

export const account = z
  .strictObject({
    id: uuid,
    login: z.string(),
    name: z.string(),
    roles: z.array(z.strictObject({ wardId: z.string(), role: roleName })),
    disabledAt: instant.nullable(),
    createdAt: instant,
  })
  .meta({ id: 'Account' }) satisfies z.ZodType<Account>;

export type AccountsView = { accounts: readonly Account[] };
