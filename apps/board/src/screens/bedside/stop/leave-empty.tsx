import { insulinAtSkip } from '@slackwater/domain/prescription/insulin-warnings';
import { useBedside } from '../bedside-context.ts';
import { insideWords } from '../model/words.ts';
import { FormDialog } from '../shared/form-dialog.tsx';

/** No fill this time: on to the still screen, which closes the visit without one. */
export const LeaveEmpty = ({ onConfirm }: { onConfirm: () => void }) => {
  const { state, policy, back } = useBedside();
  const insulin = insulinAtSkip(state, policy);
  return (
    <FormDialog
      title="Close without a fill?"
      action="Close without a fill"
      disabledBecause={null}
      onAct={onConfirm}
      onClose={back}
    >
      {insulin && (
        <p>
          <b>{insulin}</b>
        </p>
      )}
      <p>
        Probably inside: <b>{insideWords(state.inside)}</b>. It stays counted. Holding for a day needs an order with a
        time until; without one the next fill falls due by the prescription.
      </p>
    </FormDialog>
  );
};
