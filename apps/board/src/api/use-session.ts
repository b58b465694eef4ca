import type { Session } from '@slackwater/contract';
import type { Permission, Role } from '@slackwater/domain';
import { may } from '@slackwater/domain/access/permissions';
import { useSuspenseQuery } from '@tanstack/react-query';
import { sessionQuery } from './queries.ts';

/** Who is signed in. Only behind the sign-in, whose loader has fetched it. */
export const useSession = (): Session => useSuspenseQuery(sessionQuery).data;

/** The person's role on a ward; null where they have none. */
export const roleOn = (session: Session, wardId: string): Role | null =>
  session.roles.find((role) => role.wardId === wardId)?.role ?? null;

/** Whether the person may do this on the ward: the same table that the server asks. */
export const useMay = (wardId: string, permission: Permission): boolean => {
  const { roles } = useSession();
  return roles.some((role) => role.wardId === wardId && may(role.role, permission));
};
