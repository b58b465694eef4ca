import { findingsOfAppearance } from '@slackwater/domain/effluent/finding';
import { responseTo } from '@slackwater/domain/effluent/responses';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Card } from '../observations/card.tsx';
import type { AtWorkUp } from './work-up-context.ts';

/** Who was told of it, when, and what was said; that nobody was reached is an outcome too. */
export const ToldCard = ({ patient, workUp, sending, closed, keep, at }: AtWorkUp) => {
  const [draft, setDraft, forget] = useDraft(`told:${workUp.id}`, {
    whom: '',
    outcome: '',
    reached: null as 'reached' | 'notReached' | null,
  });
  const change = (part: Partial<typeof draft>) => setDraft({ ...draft, ...part });
  const finding = findingsOfAppearance(workUp.appearance)[0] ?? 'cloudy';
  const { tell } = responseTo(finding, patient.policy);
  const missing = draft.whom.trim() === '' ? 'whom?' : draft.reached === null ? 'reached or not?' : null;
  return (
    <Card
      observing={{ sending, closed }}
      title="Told"
      last={tell && `tell: ${tell}`}
      action="Keep who was told"
      missing={missing}
      onKeep={async () => {
        const payload = {
          whom: draft.whom.trim(),
          toldAt: at(),
          outcome: draft.outcome.trim() || null,
          about: 'suspected peritonitis',
          finding: { finding, cause: workUp.drainId },
          ...(draft.reached === 'notReached' ? { notReached: true as const } : {}),
        };
        if (await keep('told', payload)) forget();
      }}
    >
      <Field label="Whom" value={draft.whom} onChange={(whom) => change({ whom })} maxLength={120} />
      <Choice
        label="Reached"
        value={draft.reached}
        onChange={(reached) => change({ reached })}
        options={[
          { value: 'reached', label: 'Told' },
          { value: 'notReached', label: 'Not reached' },
        ]}
      />
      <Field
        label="What was said, what follows"
        value={draft.outcome}
        onChange={(outcome) => change({ outcome })}
        maxLength={2000}
      />
    </Card>
  );
};
