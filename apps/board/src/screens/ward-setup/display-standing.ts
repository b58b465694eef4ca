import type { WallDisplay } from '@slackwater/contract';
import { type EpochMs, HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';

/** A display that looks is noted about every half minute. */
const LOOKS_NOW_MS = 2 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;
/** Said so long before the end: somebody has to walk there with a code. */
const WARNED_DAYS = 14;

/** How one display stands: `warning` is what somebody has to do, null while nobody has to. */
export type DisplayStanding = { warning: string | null; words: string };

/** In the words of who runs the ward, at `now`, with times of the ward. */
export const displayStanding = (display: WallDisplay, now: EpochMs, zone: string): DisplayStanding => {
  const at = (instant: EpochMs) => `${formatDate(instant, zone)} ${formatClock(instant, zone)}`;
  const { revokedAt, codeEndsAt, lastSeenAt, endsAt, madeBy } = display;
  const by = madeBy === null ? 'signs in with a password' : `made by ${madeBy}`;
  const seen =
    lastSeenAt === null
      ? null
      : endsAt !== null && now - lastSeenAt < LOOKS_NOW_MS
        ? 'looks now'
        : `last seen ${at(lastSeenAt)}`;
  if (revokedAt !== null) return { warning: null, words: `ended ${at(revokedAt)}; ${by}` };
  const code =
    codeEndsAt === null
      ? null
      : codeEndsAt > now
        ? `code not used yet, until ${at(codeEndsAt)}`
        : `code of ${at(codeEndsAt)} was never used`;
  const open = endsAt !== null ? `until ${at(endsAt)}` : seen !== null ? 'signed out' : null;
  const words = [seen ?? 'never seen', open, code, by].filter((part) => part !== null).join('; ');
  return { warning: endsAt === null ? null : endingWords(endsAt - now, madeBy), words };
};

const endingWords = (leftMs: number, madeBy: string | null): string | null => {
  const days = Math.floor(leftMs / DAY_MS);
  if (days >= WARNED_DAYS) return null;
  const left = days < 1 ? 'less than a day' : days === 1 ? '1 day' : `${days} days`;
  return `Ends in ${left}: ${madeBy === null ? 'sign in there again' : 'renew it'}.`;
};
