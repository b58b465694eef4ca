import type { Draft } from '@slackwater/domain';
import { plusMinutes } from '@slackwater/domain/time/instant';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { serverClock } from '../../api/clock.ts';
import { draft, sendEntries } from '../../api/entries.ts';
import { wardQuery } from '../../api/queries.ts';

/** What a person may do with an alert; minutes default to the ward's longest. */
export type AlertAct =
  | { act: 'acknowledge'; minutes?: number }
  | { act: 'handOn'; toAccountId: string; minutes?: number }
  | { act: 'snooze'; minutes: number }
  | { act: 'clear'; reason: string };

/**
 * Records what a person does with an alert. Screens show it when the record says so, never before.
 */
export const useAlertEntry = (wardId: string, patientId: string, alertId: string) => {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async (what: AlertAct) => {
      const { policy } = await queries.ensureQueryData(wardQuery(wardId));
      return sendEntries(wardId, [entryOf(what, alertId, patientId, policy.settings.acknowledgeMostMinutes)]);
    },
  });
};

const entryOf = (what: AlertAct, alertId: string, patientId: string, mostMinutes: number): Draft => {
  const now = serverClock.now();
  const about = { patientId, happenedAt: now };
  const after = (minutes = mostMinutes) => plusMinutes(now, minutes);
  switch (what.act) {
    case 'acknowledge':
      return draft('alertAcknowledged', { alertId, until: after(what.minutes) }, about);
    case 'handOn':
      return draft('alertHandedOn', { alertId, toAccountId: what.toAccountId, until: after(what.minutes) }, about);
    case 'snooze':
      return draft('alertSnoozed', { alertId, until: after(what.minutes) }, about);
    case 'clear':
      return draft('alertCleared', { alertId, by: 'person', reason: what.reason }, about);
  }
};
