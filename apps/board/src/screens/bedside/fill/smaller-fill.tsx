import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { readDigits } from '../../../ui/digits.ts';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { wantedInVisit } from '../model/wanted.ts';
import { FormDialog } from '../shared/form-dialog.tsx';
import { type ExchangeDraft, exchangeDraft, readExchange } from '../telephone/exchange-draft.ts';
import { ExchangeFields } from '../telephone/exchange-fields.tsx';
import { telephoneActs } from '../telephone/telephone-acts.ts';

type SmallerDraft = { volume: string; order: ExchangeDraft | null };

/** An order by telephone for a smaller fill of the same fluid, this exchange only. */
export const SmallerFill = () => {
  const { state, policy, record, sending, back } = useBedside();
  const wanted = wantedInVisit(state, policy);
  const [draft, setDraft, forget] = useDraft<SmallerDraft>(`smaller-order:${state.visit?.id ?? ''}`, {
    volume: '',
    order: null,
  });
  if (!wanted) return null;
  const order = draft.order ?? exchangeDraft(wanted);
  const range = { least: 1, most: wanted.fillMl, unit: 'mL' };
  const ordered = { solutionId: wanted.solutionId, fillMl: readDigits(draft.volume, range).value };
  const { payload, missing } = readExchange(order, wanted, ordered, policy);
  const enter = async () => {
    if (payload && (await record(telephoneActs(payload, wanted, serverClock.now()), null))) {
      forget();
      back();
    }
  };
  return (
    <FormDialog
      title="Smaller fill, by order of the physician"
      action="Enter the order"
      disabledBecause={sending ? 'being sent' : missing}
      onAct={() => void enter()}
      onClose={back}
    >
      <NumberField
        label="Fill"
        typed={draft.volume}
        onTyped={(volume) => setDraft({ volume, order: { ...order, readBack: false } })}
        {...range}
        large
      />
      <ExchangeFields
        draft={order}
        onChange={(next) => setDraft({ ...draft, order: next })}
        wanted={wanted}
        bag={ordered}
      />
    </FormDialog>
  );
};
