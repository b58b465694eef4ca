import type { BagInHand } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { FormDialog } from '../shared/form-dialog.tsx';
import { Tick } from '../shared/tick.tsx';

type TelephoneBagProps = { bag: BagInHand; wanted: NextBag; onClose: () => void };

/** An order by telephone for this one exchange: it then stands above the prescription and waits to be countersigned. */
export const TelephoneBag = ({ bag, wanted, onClose }: TelephoneBagProps) => {
  const { patientId, policy, record, sending } = useBedside();
  const [typed, setTyped, forget] = useDraft(`telephone-bag:${patientId}`, {
    physician: '',
    note: '',
    readBack: false,
  });
  const strength = solutionOf(policy.formulary, bag.solutionId)?.strength ?? bag.solutionId;
  const fillMl = Math.min(bag.labelledMl, wanted.fillMl);
  const missing = [typed.physician.trim() ? '' : 'the physician’s name', typed.readBack ? '' : 'the read-back'].filter(
    Boolean,
  );
  const order = async () => {
    const content = {
      what: 'oneExchange' as const,
      solutionId: bag.solutionId,
      fillMl,
      dwellMinutes: null,
      additives: [],
    };
    const payload = {
      content,
      note: typed.note.trim() || null,
      telephone: { physician: typed.physician.trim(), readBack: true as const },
    };
    if (await record([act('ordered', payload, serverClock.now())], null)) {
      forget();
      onClose();
    }
  };
  return (
    <FormDialog
      title={`Order by telephone: ${formatMl(fillMl)} of ${strength}, this exchange only`}
      action="Enter the order"
      disabledBecause={sending ? 'being sent' : missing.length > 0 ? `${missing.join(' and ')} missing` : null}
      onAct={() => void order()}
      onClose={onClose}
    >
      <Field
        label="Physician who gave it"
        value={typed.physician}
        onChange={(physician) => setTyped({ ...typed, physician })}
        maxLength={120}
      />
      <Field label="In words" value={typed.note} onChange={(note) => setTyped({ ...typed, note })} maxLength={2000} />
      <Tick checked={typed.readBack} onChange={(readBack) => setTyped({ ...typed, readBack })}>
        Read back to the physician: {formatMl(fillMl)} of {strength}, and heard “yes”.
      </Tick>
      <p className="quiet">The physician countersigns within {policy.settings.countersignHours} h.</p>
    </FormDialog>
  );
};
