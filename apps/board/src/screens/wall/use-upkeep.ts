import { useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { sessionQuery } from '../../api/queries.ts';
import type { WardNow } from '../../live/ward-live.ts';

/** While the line is down: how often the display asks whether it is still signed in. */
const ASK_EVERY_MS = 30_000;

/**
 * Nobody stands at a wall to help it. It loads itself anew when the server runs another build, and while its line is
 * down it asks who it is: an ended or revoked display leaves for the sign-in instead of showing an old ward.
 */
export const useUpkeep = ({ connection, otherBuild }: WardNow<unknown>): void => {
  const queries = useQueryClient();
  useEffect(() => {
    if (otherBuild) window.location.reload();
  }, [otherBuild]);
  const isDown = connection.state === 'reconnecting' || connection.state === 'stale';
  useEffect(() => {
    if (!isDown) return;
    const ask = () => void queries.refetchQueries({ queryKey: sessionQuery.queryKey });
    ask();
    const asking = setInterval(ask, ASK_EVERY_MS);
    window.addEventListener('online', ask);
    return () => {
      clearInterval(asking);
      window.removeEventListener('online', ask);
    };
  }, [isDown, queries]);
};
