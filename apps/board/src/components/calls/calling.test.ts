import type { BoardRow, OpenAlert } from '@slackwater/domain';
import { expect, it } from 'vitest';
import { callingAt } from './calling.ts';

const alert = (id: string, change: Partial<OpenAlert> = {}): OpenAlert => ({
  kind: 'drainOverdue',
  cause: 'dwell',
  rank: 'high',
  since: 0,
  facts: {},
  id,
  raisedAt: 0,
  settingsVersion: 1,
  owner: null,
  acknowledgedAt: null,
  snoozedUntil: null,
  escalatedTo: null,
  ...change,
});
const row = (bed: string, ...alerts: OpenAlert[]) => ({ bed, alerts }) as unknown as BoardRow;
const calling = (rows: BoardRow[], now: number) => callingAt(rows, now).map(({ alert: { id }, bed }) => `${bed} ${id}`);

it('calls for high alerts that nobody has, and for no other', () => {
  const rows = [row('4', alert('a'), alert('medium', { rank: 'medium' })), row('7'), row('9', alert('b'))];
  expect(calling(rows, 1_000)).toEqual(['4 a', '9 b']);
});

it('stops while somebody has or snoozed it, and begins anew when that ends', () => {
  const rows = [
    row('4', alert('held', { owner: { accountId: 'x', until: 5_000 } })),
    row('5', alert('snoozed', { snoozedUntil: 6_000 })),
  ];
  expect(calling(rows, 4_999)).toEqual([]);
  expect(calling(rows, 5_000)).toEqual(['4 held']);
  expect(calling(rows, 6_000)).toEqual(['4 held', '5 snoozed']);
});
