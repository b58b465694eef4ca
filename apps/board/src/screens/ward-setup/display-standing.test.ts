import type { WallDisplay } from '@slackwater/contract';
import { HOUR_MS } from '@slackwater/domain/time/instant';
import { expect, it } from 'vitest';
import { displayStanding } from './display-standing.ts';

const now = Date.UTC(2026, 10, 25, 12);
const zone = 'Europe/London';
const DAY_MS = 24 * HOUR_MS;
const stands = (display: Partial<WallDisplay>) =>
  displayStanding(
    {
      id: '',
      name: 'Corridor',
      madeBy: 'Rowan Adair',
      madeAt: now - 80 * DAY_MS,
      codeEndsAt: null,
      lastSeenAt: now,
      endsAt: now + 80 * DAY_MS,
      revokedAt: null,
      ...display,
    },
    now,
    zone,
  );

it('warns in the last fourteen days, with how many are left and what to do', () => {
  const warning = (days: number, madeBy: string | null = 'Rowan Adair') =>
    stands({ endsAt: now + days * DAY_MS, madeBy }).warning;
  expect([80, 14, 13.9, 1.5, 0.5].map((days) => warning(days))).toEqual([
    null,
    null,
    'Ends in 13 days: renew it.',
    'Ends in 1 day: renew it.',
    'Ends in less than a day: renew it.',
  ]);
  expect(warning(3, null)).toBe('Ends in 3 days: sign in there again.');
});

it('says who looks, until when, and whether a new code waits', () => {
  expect(stands({}).words).toBe('looks now; until 13-Feb-2027 12:00; made by Rowan Adair');
  expect(stands({ lastSeenAt: now - HOUR_MS, codeEndsAt: now + HOUR_MS }).words).toBe(
    'last seen 25-Nov-2026 11:00; until 13-Feb-2027 12:00; code not used yet, until 25-Nov-2026 13:00; made by Rowan Adair',
  );
  expect(stands({ endsAt: null }).words).toBe('last seen 25-Nov-2026 12:00; signed out; made by Rowan Adair');
  expect(stands({ endsAt: null, lastSeenAt: null, codeEndsAt: now - HOUR_MS }).words).toBe(
    'never seen; code of 25-Nov-2026 11:00 was never used; made by Rowan Adair',
  );
  expect(stands({ revokedAt: now, endsAt: null })).toEqual({
    warning: null,
    words: 'ended 25-Nov-2026 12:00; made by Rowan Adair',
  });
});
