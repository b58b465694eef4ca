import { useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { useDraft } from '../../drafts/use-draft.ts';
import { paths } from '../../paths.ts';
import { Field } from '../../ui/field.tsx';
import { Card } from './card.tsx';
import { LeaveDialog } from './leave-dialog.tsx';
import type { Observing } from './observe-context.ts';

/** A discharge: what is inside is told first, and can be printed afterwards. */
export const DischargeCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const { patientId, state } = patient;
  const navigate = useNavigate();
  const [draft, setDraft, forget] = useDraft(`discharge:${patientId}`, { to: '', handover: '' });
  const [leaving, setLeaving] = useState(false);
  const to = draft.to.trim();
  return (
    <Card
      observing={observing}
      title="Discharge"
      action="Discharge"
      missing={patient.mayDo('admitAndMove') ? (to === '' ? 'where to?' : null) : 'charge nurse'}
      onKeep={() => setLeaving(true)}
    >
      <Field
        label="Where to"
        value={draft.to}
        onChange={(next) => setDraft({ ...draft, to: next })}
        maxLength={200}
        hint="home, another hospital, …"
      />
      <Field
        label="Also handed over"
        value={draft.handover}
        onChange={(handover) => setDraft({ ...draft, handover })}
        maxLength={2000}
        hint="What is inside is asked next."
      />
      {state.stay === null && state.fluidHandover && (
        <p>
          <Link to={paths.handedOver(patientId)}>What was handed over</Link>
        </p>
      )}
      {leaving && (
        <LeaveDialog
          observing={observing}
          title={`Discharge to ${to}`}
          action="Discharge"
          onClose={() => setLeaving(false)}
          onLeave={async (fluid) => {
            if (!(await keep('discharged', { to, handover: draft.handover.trim() || null, ...fluid }))) return;
            forget();
            setLeaving(false);
            if (fluid.fluid) navigate(paths.handedOver(patientId));
          }}
        />
      )}
    </Card>
  );
};
