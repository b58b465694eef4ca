import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { FormDialog } from '../shared/form-dialog.tsx';
import { EMPTY_INFUSED, InfusedFields, readInfused, useFillBag } from './infused-fields.tsx';

/** The fill ends before all is in; the visit goes on, and the rest may follow. */
export const StopEarly = () => {
  const { state, policy, record, sending, back } = useBedside();
  const bag = useFillBag();
  const [draft, setDraft, forget] = useDraft(`stop-early:${state.visit?.fill?.entryId ?? ''}`, EMPTY_INFUSED);
  if (!bag) return null;
  const infused = readInfused(draft, bag, policy.settings.filledMostMl);
  const end = async () => {
    if (!infused) return;
    if (await record([act('endFill', { infused }, serverClock.now())])) {
      forget();
      back();
    }
  };
  return (
    <FormDialog
      title="Stop the fill early"
      action="The fill has ended"
      disabledBecause={sending ? 'being sent' : infused ? null : 'say how much went in'}
      onAct={() => void end()}
      onClose={back}
      closeWords="It still runs"
    >
      <InfusedFields draft={draft} onChange={setDraft} bag={bag} noneAllowed={false} />
    </FormDialog>
  );
};
