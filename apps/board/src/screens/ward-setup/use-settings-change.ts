import type { WardView } from '@slackwater/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { draft, sendEntries } from '../../api/entries.ts';
import { wardQuery } from '../../api/queries.ts';

type Changes = Readonly<Record<string, number | string>>;

/** Keeps changes to what the ward decides, all or none, as its next version. */
export const useSettingsChange = (ward: WardView, onKept: () => void) => {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: (changes: Changes) =>
      sendEntries(ward.id, [
        draft('settingsChanged', { version: ward.policy.version + 1, changes }, { patientId: null }),
      ]),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: wardQuery(ward.id).queryKey });
      onKept();
    },
  });
};
