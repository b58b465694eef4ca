import type { BoardRow, OpenAlert } from '@slackwater/domain';
import { expect, it } from 'vitest';
import { openAlerts, whose } from './open-alerts.ts';

const alert = (id: string, change: Partial<OpenAlert> = {}): OpenAlert => ({
  kind: 'drainOverdue',
  cause: 'dwell',
  rank: 'medium',
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
const row = (nurseId: string | null, ...alerts: OpenAlert[]) =>
  ({ alerts, nurse: nurseId === null ? null : { accountId: nurseId, to: 9_000 } }) as unknown as BoardRow;
const held = (accountId: string) => ({ owner: { accountId, until: 9_000 } });

const rows = [
  row('okoro', alert('low of hers', { rank: 'low' }), alert('medium of hers', { raisedAt: 5 })),
  row(
    'tolland',
    alert('medium of his', { raisedAt: 1 }),
    alert('high of his', { rank: 'high', escalatedTo: 'chargeNurse' }),
  ),
  row(
    null,
    alert('medium she has', { ...held('okoro'), raisedAt: 2 }),
    alert('high he has', { rank: 'high', ...held('tolland') }),
  ),
];
const seenBy = (accountId: string, role: 'nurse' | 'chargeNurse') =>
  openAlerts(rows, { accountId, role }, 1_000).map((open) => open.alert.id);

it('stand by rank, and of one rank the viewer’s own first: those she has, those of her patients', () => {
  expect(seenBy('okoro', 'nurse')).toEqual([
    'high of his',
    'high he has',
    'medium of hers',
    'medium she has',
    'medium of his',
    'low of hers',
  ]);
});

it('what was taken up to the charge nurse is the charge nurse’s', () => {
  const own = openAlerts(rows, { accountId: 'adair', role: 'chargeNurse' }, 1_000);
  expect(own[0]!.alert.id).toBe('high of his');
});

it('are somebody’s: who has it, else whose patient it is', () => {
  const all = openAlerts(rows, { accountId: 'x', role: null }, 1_000);
  expect(Object.fromEntries(all.map((open) => [open.alert.id, whose(open, 1_000)]))).toEqual({
    'high of his': 'tolland',
    'high he has': 'tolland',
    'medium of hers': 'okoro',
    'medium she has': 'okoro',
    'medium of his': 'tolland',
    'low of hers': 'okoro',
  });
});
