import { randomUUID } from 'node:crypto';
import type { EpochMs, Role } from '@slackwater/domain';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain';
import type { Pool } from 'pg';
import {
  END_SESSIONS,
  LOCK_SESSION,
  SESSION_BY_TOKEN,
  type SessionRow,
  START_SESSION,
  TOUCH_SESSION,
  UNLOCK_SESSION,
} from './sessions.sql.ts';
import { hashToken, newToken } from './tokens.ts';

/** Writing locks after so long without a change by this person. */
export const IDLE_LOCK_MS = 30 * MINUTE_MS;
/** A shift of twelve hours and its handover. */
const LASTS_MS = 12.5 * HOUR_MS;
/** A wall display has nobody to sign it in. */
const WALL_LASTS_MS = 90 * 24 * HOUR_MS;
/** For so long a process answers reads without asking Postgres again. */
const REMEMBERED_MS = 5_000;
const MOST_REMEMBERED = 10_000;
/** Once in so long is enough to tell idle from busy. */
const TOUCHED_FOR_MS = 30_000;

/** Who is signed in, as all parts of the server see them. */
export type SignedIn = {
  sessionId: string;
  accountId: string;
  login: string;
  name: string;
  manager: boolean;
  roles: readonly { wardId: string; wardName: string; role: Role }[];
  /** The last change that was noted; see `touch`. */
  lastSeenAt: EpochMs;
  lockedAt: EpochMs | null;
  endsAt: EpochMs;
  /** The database's clock when this was read. */
  readAt: EpochMs;
};

/** The notices of it name the account whose sessions ended or whose rights changed. */
export const SESSION_CHANNEL = 'slackwater_session';

export type Sessions = ReturnType<typeof openSessions>;

/** The sessions of one hospital. `now` is any clock that only runs forward, ms: it ages what is remembered. */
export function openSessions(pool: Pool, siteId: string, now: () => number) {
  /** By token: it is kept nowhere but in this memory, and for seconds. */
  const remembered = new Map<string, { signedIn: SignedIn; until: number }>();

  async function ask(token: string): Promise<SignedIn | null> {
    const { rows } = await pool.query<SessionRow>({ ...SESSION_BY_TOKEN, values: [siteId, hashToken(token)] });
    remembered.delete(token);
    if (!rows[0]) return null;
    const signedIn = fromRow(rows[0]);
    if (remembered.size >= MOST_REMEMBERED) remembered.delete(remembered.keys().next().value!);
    remembered.set(token, { signedIn, until: now() + REMEMBERED_MS });
    return signedIn;
  }

  /** Who is remembered without asking anybody; null says nothing of the session. */
  function recalled(token: string): SignedIn | null {
    const known = remembered.get(token);
    return known && known.until > now() ? known.signedIn : null;
  }

  /** Another process ended sessions of this account, or changed what it may do. */
  function forget(accountId: string) {
    for (const [token, { signedIn }] of remembered) if (signedIn.accountId === accountId) remembered.delete(token);
  }

  return {
    forget,

    /** Asks Postgres: for every change, and where the answer must be of this moment. */
    ask,

    recalled,

    /** For reads: what was known within the last five seconds will do. */
    recall: async (token: string): Promise<SignedIn | null> => recalled(token) ?? ask(token),

    /** Makes a session; its token is returned once and kept nowhere. */
    async start(account: { id: string; wallOnly: boolean }, from: { address: string; userAgent: string | null }) {
      const token = newToken();
      const lastsMs = account.wallOnly ? WALL_LASTS_MS : LASTS_MS;
      const values = [siteId, randomUUID(), account.id, hashToken(token), lastsMs / 1000, from.address, from.userAgent];
      await pool.query({ ...START_SESSION, values });
      return token;
    },

    /** The person did something: the idle time begins anew. Noted so seldom, it costs a change no round trip. */
    async touch({ sessionId, lastSeenAt, readAt }: SignedIn) {
      if (readAt - lastSeenAt < TOUCHED_FOR_MS) return;
      await pool.query({ ...TOUCH_SESSION, values: [siteId, sessionId] });
    },

    async lock(sessionId: string) {
      await pool.query({ ...LOCK_SESSION, values: [siteId, sessionId] });
    },

    async unlock(sessionId: string) {
      await pool.query({ ...UNLOCK_SESSION, values: [siteId, sessionId] });
    },

    /** Ends one session of the account, or with `null` all of them, in every process. */
    async end(accountId: string, sessionId: string | null) {
      forget(accountId);
      await pool.query({ ...END_SESSIONS, values: [siteId, accountId, sessionId] });
    },

    /** What the account may do has changed: every process asks again. */
    async changed(accountId: string) {
      forget(accountId);
      await pool.query('SELECT pg_notify($1, $2)', [SESSION_CHANNEL, accountId]);
    },

    /** Notices may have been missed. */
    forgetAll() {
      remembered.clear();
    },
  };
}

function fromRow(row: SessionRow): SignedIn {
  const idleSince = row.last_seen_ms + IDLE_LOCK_MS;
  return {
    sessionId: row.id,
    accountId: row.account_id,
    login: row.login,
    name: row.name,
    manager: row.manager,
    roles: row.roles,
    lastSeenAt: row.last_seen_ms,
    lockedAt: row.locked_ms ?? (idleSince <= row.now_ms ? idleSince : null),
    endsAt: row.ends_ms,
    readAt: row.now_ms,
  };
}
