import type { BagInHand } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { useBedside } from '../bedside-context.ts';
import { FormDialog } from '../shared/form-dialog.tsx';
import { exchangeDraft, readExchange } from '../telephone/exchange-draft.ts';
import { ExchangeFields } from '../telephone/exchange-fields.tsx';
import { telephoneActs } from '../telephone/telephone-acts.ts';

type TelephoneBagProps = {
  bag: Pick<BagInHand, 'solutionId' | 'labelledMl'>;
  wanted: NextBag;
  /** What the order stands against, to begin its words with. */
  note?: string;
  onClose: () => void;
};

/** An order by telephone for this one exchange: it then stands above the prescription and waits to be countersigned. */
export const TelephoneBag = ({ bag, wanted, note = '', onClose }: TelephoneBagProps) => {
  const { patientId, state, policy, record, sending } = useBedside();
  const [draft, setDraft, forget] = useDraft(
    `telephone-order:${patientId}:${state.head ?? 'first'}:${bag.solutionId}:${bag.labelledMl}`,
    { ...exchangeDraft(wanted), note },
  );
  const strength = solutionOf(policy.formulary, bag.solutionId)?.strength ?? bag.solutionId;
  const fillMl = Math.min(bag.labelledMl, wanted.fillMl);
  const ordered = { solutionId: bag.solutionId, fillMl };
  const { payload, missing } = readExchange(draft, wanted, ordered, policy);
  const order = async () => {
    if (payload && (await record(telephoneActs(payload, wanted, serverClock.now()), null))) {
      forget();
      onClose();
    }
  };
  return (
    <FormDialog
      title={`Order by telephone: ${formatMl(fillMl)} of ${strength}, this exchange only`}
      action="Enter the order"
      disabledBecause={sending ? 'being sent' : missing}
      onAct={() => void order()}
      onClose={onClose}
    >
      <ExchangeFields draft={draft} onChange={setDraft} wanted={wanted} bag={ordered} />
    </FormDialog>
  );
};
