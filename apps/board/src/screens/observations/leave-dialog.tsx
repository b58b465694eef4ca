import type { FluidHandover, FluidSaid } from '@slackwater/domain';
import { fluidToTell, sameFluid } from '@slackwater/domain/cavity/fluid-handover';
import { useState } from 'react';
import { useDraft } from '../../drafts/use-draft.ts';
import { Field } from '../../ui/field.tsx';
import { Facts } from '../bedside/shared/facts.tsx';
import { FormDialog } from '../bedside/shared/form-dialog.tsx';
import { Tick } from '../bedside/shared/tick.tsx';
import { catheterFacts } from '../handed-over/catheter-facts.ts';
import { fluidFacts } from '../patient-record/words/fluid-words.ts';
import type { Observing } from './observe-context.ts';

type LeaveDialogProps = {
  observing: Observing;
  title: string;
  action: string;
  onClose: () => void;
  /** `fluid`: what was told to whom; nothing with an empty cavity. */
  onLeave: (told: { fluid?: FluidHandover }) => void;
};

/** Before a patient leaves: what is inside by the record, told to a person with a name. Unknown is said as unknown. */
export const LeaveDialog = ({ observing, title, action, onClose, onLeave }: LeaveDialogProps) => {
  const { patient, sending } = observing;
  const { state, policy, clock, ward, patientId, view } = patient;
  const [typed, setTyped, forget] = useDraft(`leave:${patientId}`, '');
  const [told, setTold] = useState<FluidSaid | null>(null);
  const said = fluidToTell(state);
  // What changed in the record since it was told must be told anew.
  const wasTold = told !== null && said !== null && sameFluid(told, said);
  const toWhom = typed.trim();
  const missing = [toWhom === '' ? 'who was told' : null, wasTold ? null : 'that it was told'].filter(
    (one) => one !== null,
  );
  const leave = () => {
    if (said === null) return onLeave({});
    forget();
    onLeave({ fluid: { toWhom, said } });
  };
  return (
    <FormDialog
      title={title}
      action={action}
      disabledBecause={
        state.visit
          ? 'a visit is under way: close or stop it first'
          : sending
            ? 'being sent'
            : said && missing.length > 0
              ? `missing: ${missing.join(', ')}`
              : null
      }
      onAct={leave}
      onClose={onClose}
    >
      <p>
        <b>
          {view.patient.family}, {view.patient.given}
        </b>
        , {view.patient.hospitalNumber}
      </p>
      {said === null ? (
        <p>
          The cavity is <b>empty</b> since {clock(state.cavity.since)}: there is no fluid to hand over.
        </p>
      ) : (
        <>
          <p>Tell this to whoever takes the patient over, and let it be said back.</p>
          <Facts
            facts={[...fluidFacts(said, { clock, formulary: policy.formulary }), ...catheterFacts(state, ward.zone)]}
          />
          <Field label="Told to, by name" value={typed} onChange={setTyped} maxLength={120} />
          <Tick checked={wasTold} onChange={(checked) => setTold(checked ? said : null)}>
            Volume, strength and time were told as they stand above.
          </Tick>
        </>
      )}
    </FormDialog>
  );
};
