import { plusMinutes } from '@slackwater/domain/time/instant';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { serverClock } from '../../api/clock.ts';
import { draft, sendEntries } from '../../api/entries.ts';
import { wardQuery } from '../../api/queries.ts';

/**
 * Acknowledges an alert for as long as the ward allows; the board shows it when the record says so, never before.
 */
export const useTakeAlert = (wardId: string) => {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async ({ patientId, alertId }: { patientId: string; alertId: string }) => {
      const { policy } = await queries.ensureQueryData(wardQuery(wardId));
      const until = plusMinutes(serverClock.now(), policy.settings.acknowledgeMostMinutes);
      return sendEntries(wardId, [draft('alertAcknowledged', { alertId, until }, { patientId })]);
    },
  });
};
