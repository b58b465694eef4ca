import { useIsFetching, useQueryClient } from '@tanstack/react-query';
import { serverClock } from '../../../api/clock.ts';
import { sessionQuery } from '../../../api/queries.ts';
import { Button, type ButtonTone } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { inOrderOfUndoing, lastActOf } from '../model/last-act.ts';
import { recentEntriesQuery } from './queries.ts';

/**
 * Takes back the newest touch while nothing follows it. Nothing is removed: the entries stay readable in the record,
 * marked as never counted.
 */
export const Undo = ({ tone = 'side' }: { tone?: ButtonTone }) => {
  const { patientId, entries, state, record, sending } = useBedside();
  const reading = useIsFetching({ queryKey: recentEntriesQuery(patientId).queryKey, exact: true }) > 0;
  const me = useQueryClient().getQueryData(sessionQuery.queryKey)?.account.id;
  const last = lastActOf(entries, state.visit?.id ?? state.lastVisit?.id ?? null, state.head);
  const mine = last?.entries[0]?.author === me;
  const because = !last
    ? 'nothing to undo'
    : mine
      ? null
      : `${last.authorName ?? 'somebody else'} wrote the last entry`;
  const undo = () => {
    if (!last) return;
    const at = serverClock.now();
    void record(
      inOrderOfUndoing(last.entries).map((entry) =>
        act('retracted', { target: entry.id, reason: 'undone at the bedside', enteredAs: null }, at),
      ),
    );
  };
  // While the record is read again, the newest entry known here may not be the newest: an older touch would go.
  return (
    <Button tone={tone} disabledBecause={sending || reading ? 'being sent' : because} onPress={undo}>
      Undo
    </Button>
  );
};
