import type { Session } from '@slackwater/contract';
import { paths } from '../paths.ts';

/** Where a person begins: their ward's board, the wall for a wall display; a manager without a ward at the hospital. */
export const homeOf = (session: Session): string => {
  const first = session.roles[0];
  if (first === undefined) return paths.hospital();
  return first.role === 'wall' ? paths.wall(first.wardId) : paths.board(first.wardId);
};
