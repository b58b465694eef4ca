import { expect, it } from 'vitest';
import type { Entry } from '../record/entry.ts';
import { bedsideOf } from '../testing/bedside.ts';
import { noticesOf } from './notice.ts';

const entry = (id: string, kind: string, payload: object): Entry =>
  ({ id, kind, payload, happenedAt: 5_000, wardId: 'kestrel', author: null }) as unknown as Entry;

const condition = { kind: 'drainOverdue', cause: 'fill', rank: 'high', since: 1_000, facts: {} };
const raise = entry('alert', 'alertRaised', { condition, settingsVersion: 3 });
const state = bedsideOf({});

it('tells what is raised, taken up a step and cleared, as the alert then is', () => {
  const entries = [
    raise,
    entry('up', 'alertEscalated', { alertId: 'alert', to: 'chargeNurse' }),
    entry('taken', 'alertAcknowledged', { alertId: 'alert', until: 9_000 }),
    entry('done', 'alertCleared', { alertId: 'alert', by: 'condition', reason: null }),
  ];
  const notices = noticesOf(state, entries, state);
  expect(notices.map(({ event, entryId }) => [event, entryId])).toEqual([
    ['raised', 'alert'],
    ['escalated', 'up'],
    ['cleared', 'done'],
  ]);
  expect(notices[1]).toMatchObject({
    at: 5_000,
    wardId: 'kestrel',
    bed: state.stay?.bed,
    alert: { escalatedTo: 'chargeNurse' },
  });
});

it('speaks of alerts that were open before, and keeps the bed of who has left it', () => {
  const [raised] = noticesOf(state, [raise], state);
  const before = { ...state, alerts: [raised!.alert] };
  const gone = noticesOf(before, [entry('done', 'alertCleared', { alertId: 'alert', by: 'condition', reason: null })], {
    stay: null,
  });
  expect(gone).toMatchObject([{ event: 'cleared', bed: state.stay?.bed, alert: { id: 'alert', settingsVersion: 3 } }]);
});

it('tells nothing of what is no alert', () => {
  expect(noticesOf(state, [entry('w', 'weight', { weightKg: 70, cavity: 'full' })], state)).toEqual([]);
});
