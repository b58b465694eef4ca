import type { Group, RowAt } from '@slackwater/domain';

export const GROUP_WORDS: Record<Group, string> = {
  now: 'Now',
  withinTheHour: 'Within the hour',
  later: 'Later',
  empty: 'Empty',
};

/** Beside the numerals: what they count to, or since when. */
export const STATE_WORDS: Record<RowAt['word'], string> = {
  overdue: 'overdue',
  pastDue: 'past due',
  due: 'due',
  drainAt: 'drain at',
  fillAt: 'fill at',
  reviewAt: 'review by',
  preparing: 'preparing',
  connected: 'connected',
  draining: 'draining',
  drained: 'drained',
  filling: 'filling',
  closing: 'closing',
  empty: 'Empty',
  onHold: 'On hold',
  unknown: 'Not known',
};
