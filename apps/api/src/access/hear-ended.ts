import type { Client } from 'pg';
import { SESSION_CHANNEL, type Sessions } from './sessions.ts';

/**
 * Lets the connection that listens for positions hear of ended sessions and changed rights too, so that no process
 * goes on with what it remembers; `onEnded` is told whose they are. What was said while nobody listened is made good by
 * forgetting everything.
 */
export function hearEnded(client: Client, sessions: Sessions, onEnded: (accountId: string) => void): Client {
  client.on('connect', () => {
    sessions.forgetAll();
    client.query(`LISTEN ${SESSION_CHANNEL}`).catch(() => {
      // the connection was lost again; the next one listens
    });
  });
  client.on('notification', ({ channel, payload }) => {
    if (channel !== SESSION_CHANNEL || !payload) return;
    sessions.forget(payload);
    onEnded(payload);
  });
  return client;
}
