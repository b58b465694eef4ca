import type { EpochMs, Role } from '@slackwater/domain';
import { z } from 'zod';
import { instant, isPrintable, line, uuid } from './primitives.ts';

export const roleName = z.enum(['nurse', 'chargeNurse', 'nephrologist', 'manager', 'wall']);

/** What a person signs in with: 2 to 60 letters, digits, dots, hyphens. */
export const login = z
  .string()
  .regex(/^[a-z0-9][a-z0-9.-]{1,59}$/, '2 to 60 lower-case letters, digits, dots, hyphens');

/** What is typed at sign-in: any length up to the limit, so that an old password is never refused for its form. */
const typedPassword = z.string().min(1).max(200);

/** A new password (NIST SP 800-63B: length counts, no rules of composition). */
export const newPassword = z
  .string()
  .min(12, 'a password of 12 to 200 characters')
  .max(200, 'a password of 12 to 200 characters');

/** `POST /api/sign-in` */
export const signIn = z.strictObject({
  login: z.string().min(1).max(60).refine(isPrintable, { error: 'printable text, 1 to 60 characters' }),
  password: typedPassword,
  /**
   * The browser's own secret, which it keeps beside what waits on it: by it the browser is known again where its cookie
   * is gone, since browsers write cookies late and may die before.
   */
  device: z
    .string()
    .regex(/^[A-Za-z0-9_-]{43}$/, '256 bits in base64url')
    .optional(),
});
export type SignIn = z.infer<typeof signIn>;

/** `POST /api/unlock`: the same person again, over what was typed. */
export const unlock = z.strictObject({ password: typedPassword });

/** `POST /api/first-administrator`: the one-time link's token, and the manager it makes. */
export const firstAdministrator = z.strictObject({
  token: z.string().min(20).max(200),
  login,
  name: line(120),
  password: newPassword,
});
export type FirstAdministrator = z.infer<typeof firstAdministrator>;

/** Who is signed in, where they may act, and until when. */
export type Session = {
  account: { id: string; login: string; name: string };
  roles: readonly { wardId: string; wardName: string; role: Role }[];
  /** Manages the hospital's accounts and settings. */
  manager: boolean;
  /** Since when writing waits for the password; null while it does not. */
  lockedAt: EpochMs | null;
  /** Writing locks after so long without a request of a person. */
  idleLockMs: number;
  /** The absolute end, whatever happens. */
  endsAt: EpochMs;
  /** The data are invented. */
  demonstration: boolean;
  serverAt: EpochMs;
};

const sessionFields = z.strictObject({
  account: z.strictObject({ id: uuid, login: z.string(), name: z.string() }),
  roles: z.array(z.strictObject({ wardId: z.string(), wardName: z.string(), role: roleName })),
  manager: z.boolean(),
  lockedAt: instant.nullable(),
  idleLockMs: z.int(),
  endsAt: instant,
  demonstration: z.boolean(),
  serverAt: instant,
});

export const session: z.ZodType<Session> = sessionFields.meta({ id: 'Session' });

/**
 * The answer to a sign-in, and to nothing else: the key of this account on this device, 256 bits in base64, under which
 * the device keeps what it cannot send.
 */
export type SignInAnswer = Session & { deviceKey: string };

export const signInAnswer: z.ZodType<SignInAnswer> = sessionFields
  .extend({ deviceKey: z.base64().length(44) })
  .meta({ id: 'SignInAnswer' });
