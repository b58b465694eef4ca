import { findingsOfAppearance } from '@slackwater/domain/effluent/finding';
import { responseTo } from '@slackwater/domain/effluent/responses';
import { useDraft } from '../../drafts/use-draft.ts';
import { Field } from '../../ui/field.tsx';
import { Card } from '../observations/card.tsx';
import { NOBODY_TOLD, ReachedFields, toldMissing, toldPayload } from '../observations/told-fields.tsx';
import type { AtWorkUp } from './work-up-context.ts';

/** Who was told of it, when, and what was said; that nobody was reached is an outcome too. */
export const ToldCard = ({ patient, workUp, sending, closed, keep, at }: AtWorkUp) => {
  const [draft, setDraft, forget] = useDraft(`told:${workUp.id}`, NOBODY_TOLD);
  const change = (part: Partial<typeof draft>) => setDraft({ ...draft, ...part });
  const finding = findingsOfAppearance(workUp.appearance)[0] ?? 'cloudy';
  const { tell } = responseTo(finding, patient.policy);
  const missing = draft.whom.trim() === '' ? 'whom?' : toldMissing(draft);
  return (
    <Card
      observing={{ sending, closed }}
      title="Told"
      last={tell && `tell: ${tell}`}
      action="Keep who was told"
      missing={missing}
      onKeep={async () => {
        const about = { toldAt: at(), about: 'suspected peritonitis', finding: { finding, cause: workUp.drainId } };
        if (await keep('told', toldPayload(draft, about))) forget();
      }}
    >
      <Field label="Whom" value={draft.whom} onChange={(whom) => change({ whom })} maxLength={120} />
      <ReachedFields draft={draft} onChange={change} />
    </Card>
  );
};
