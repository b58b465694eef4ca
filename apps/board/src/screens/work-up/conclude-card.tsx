import type { WorkUpConclusion } from '@slackwater/domain';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Card } from '../observations/card.tsx';
import type { AtWorkUp } from './work-up-context.ts';

/** A person concludes it, with a reason; the criteria alone never do. */
export const ConcludeCard = ({ patient, workUp, sending, closed, keep }: AtWorkUp) => {
  const [draft, setDraft, forget] = useDraft(`conclude:${workUp.id}`, {
    conclusion: null as WorkUpConclusion | null,
    reason: '',
  });
  const mayNot = patient.mayDo('concludeWorkUp') ? closed : 'physician or charge nurse';
  const missing = draft.conclusion === null ? 'the conclusion' : draft.reason.trim() === '' ? 'the reason' : null;
  return (
    <Card
      observing={{ sending, closed: mayNot }}
      title="Conclude"
      action="Conclude the work-up"
      missing={missing && `missing: ${missing}`}
      onKeep={async () => {
        if (draft.conclusion === null) return;
        const payload = { workUpId: workUp.id, conclusion: draft.conclusion, reason: draft.reason.trim() };
        if (await keep('workUpClosed', payload)) forget();
      }}
    >
      <Choice
        label="It was"
        layout="apart"
        value={draft.conclusion}
        onChange={(conclusion) => setDraft({ ...draft, conclusion })}
        options={[
          { value: 'peritonitis', label: 'Peritonitis' },
          { value: 'notPeritonitis', label: 'Not peritonitis' },
          { value: 'other', label: 'Another cause' },
        ]}
      />
      <Field
        label="The reason, and whose word it is"
        value={draft.reason}
        onChange={(reason) => setDraft({ ...draft, reason })}
        maxLength={500}
      />
    </Card>
  );
};
