import type { Session } from '@slackwater/contract';
import { paths } from '../paths.ts';

/** Where a person begins: their ward's board, the wall for a wall display. */
export const homeOf = (session: Session): string => {
  const first = session.roles[0];
  if (!first) return paths.signIn();
  return first.role === 'wall' ? paths.wall(first.wardId) : paths.board(first.wardId);
};
