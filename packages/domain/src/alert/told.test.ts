import { describe, expect, it } from 'vitest';
import type { Entry } from '../record/entry.ts';
import type { OpenAlert } from './alert.ts';
import { toldOf } from './told.ts';

const alert: OpenAlert = {
  kind: 'drainOverdue',
  cause: 'fill',
  rank: 'high',
  since: 1_000,
  facts: {},
  id: 'alert',
  raisedAt: 1_000,
  settingsVersion: 4,
  owner: null,
  acknowledgedAt: null,
  snoozedUntil: null,
  escalatedTo: 'physician',
};
const about = (kind: string, payload: object, happenedAt: number): Entry =>
  ({ kind, payload: { alertId: 'alert', ...payload }, happenedAt, author: 'perera' }) as unknown as Entry;

describe('an alert, as entries tell of it', () => {
  it('is its owner’s until the time; the steps it was taken up begin anew after that', () => {
    expect(toldOf(alert, about('alertAcknowledged', { until: 9_000 }, 2_000))).toEqual({
      ...alert,
      owner: { accountId: 'perera', until: 9_000 },
      acknowledgedAt: 2_000,
      escalatedTo: null,
    });
  });
  it('that is handed on is the other person’s, and keeps when somebody first had it', () => {
    const held = toldOf(alert, about('alertAcknowledged', { until: 9_000 }, 2_000));
    expect(toldOf(held, about('alertHandedOn', { toAccountId: 'okoro', until: 12_000 }, 5_000))).toMatchObject({
      owner: { accountId: 'okoro', until: 12_000 },
      acknowledgedAt: 2_000,
    });
  });
  it('that is snoozed rests, with an end, and is nobody’s', () => {
    expect(toldOf(alert, about('alertSnoozed', { until: 9_000 }, 2_000))).toEqual({
      ...alert,
      snoozedUntil: 9_000,
      escalatedTo: null,
    });
  });
  it('goes up a step', () => {
    expect(toldOf({ ...alert, escalatedTo: null }, about('alertEscalated', { to: 'chargeNurse' }, 2_000))).toEqual({
      ...alert,
      escalatedTo: 'chargeNurse',
    });
  });
  it('is left as it is by an entry about something else', () => {
    expect(toldOf(alert, about('weight', { weightKg: 70 }, 2_000))).toBe(alert);
  });
});
