import { formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { readDigits } from '../../../ui/digits.ts';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { wantedInVisit } from '../model/wanted.ts';
import { FormDialog } from '../shared/form-dialog.tsx';
import { Tick } from '../shared/tick.tsx';

/** An order by telephone for a smaller fill of the same fluid, this exchange only. */
export const SmallerFill = () => {
  const { state, policy, record, sending, back } = useBedside();
  const wanted = wantedInVisit(state, policy);
  const [draft, setDraft, forget] = useDraft(`smaller-fill:${state.visit?.id ?? ''}`, {
    volume: '',
    physician: '',
    readBack: false,
  });
  if (!wanted) return null;
  const range = { least: 1, most: wanted.fillMl, unit: 'mL' };
  const volumeMl = readDigits(draft.volume, range).value;
  const missing = [
    volumeMl === null ? 'the volume' : null,
    draft.physician.trim() ? null : 'the physician',
    draft.readBack ? null : 'the read-back',
  ].filter((one) => one !== null);
  const order = async () => {
    if (volumeMl === null) return;
    const payload = {
      content: {
        what: 'oneExchange' as const,
        solutionId: wanted.solutionId,
        fillMl: volumeMl,
        dwellMinutes: null,
        additives: wanted.additives,
      },
      note: null,
      telephone: { physician: draft.physician.trim(), readBack: true as const },
    };
    if (await record([act('ordered', payload, serverClock.now())], null)) {
      forget();
      back();
    }
  };
  return (
    <FormDialog
      title="Smaller fill, by order of the physician"
      action="Enter the order"
      disabledBecause={sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onAct={() => void order()}
      onClose={back}
    >
      <NumberField
        label="Fill"
        typed={draft.volume}
        onTyped={(volume) => setDraft({ ...draft, volume })}
        {...range}
        large
      />
      <Field
        label="Physician who gave it"
        value={draft.physician}
        onChange={(physician) => setDraft({ ...draft, physician })}
        maxLength={120}
      />
      <Tick checked={draft.readBack} onChange={(readBack) => setDraft({ ...draft, readBack })}>
        Read back{volumeMl === null ? '' : `: ${formatMl(volumeMl)}`}, and heard “yes”.
      </Tick>
    </FormDialog>
  );
};
