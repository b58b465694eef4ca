import type { OpenAlert } from '@slackwater/domain';
import { expect, it } from 'vitest';
import { byGravity, nobodySince, standingAt } from './standing.ts';

const alert = (over: Partial<OpenAlert>): OpenAlert => ({
  kind: 'drainOverdue',
  cause: 'dwell',
  rank: 'high',
  since: 0,
  facts: {},
  id: 'a',
  raisedAt: 1000,
  settingsVersion: 1,
  owner: null,
  acknowledgedAt: null,
  snoozedUntil: null,
  escalatedTo: null,
  ...over,
});

it('is nobody’s again at the very end of an acknowledgement or a snooze', () => {
  const held = alert({ owner: { accountId: 'x', until: 5000 } });
  expect([standingAt(held, 4999), standingAt(held, 5000)]).toEqual(['held', 'nobody']);
  const snoozed = alert({ snoozedUntil: 5000 });
  expect([standingAt(snoozed, 4999), standingAt(snoozed, 5000)]).toEqual(['snoozed', 'nobody']);
  expect(nobodySince(held)).toBe(5000);
});

it('puts rank before owner, owner before age', () => {
  const list = [
    alert({ id: 'low', rank: 'low', raisedAt: 1 }),
    alert({ id: 'held', owner: { accountId: 'x', until: 9000 }, raisedAt: 2 }),
    alert({ id: 'snoozed', snoozedUntil: 9000, raisedAt: 1 }),
    alert({ id: 'young', raisedAt: 20 }),
    alert({ id: 'old', raisedAt: 10 }),
  ];
  expect(list.toSorted(byGravity(5000)).map(({ id }) => id)).toEqual(['old', 'young', 'held', 'snoozed', 'low']);
});
