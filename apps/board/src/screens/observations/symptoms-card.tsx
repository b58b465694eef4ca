import { findingsOfComfort } from '@slackwater/domain/effluent/finding';
import { newId } from '../../api/ids.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Field } from '../../ui/field.tsx';
import { type ComfortDraft, NO_COMFORT, readComfort } from '../bedside/model/comfort-draft.ts';
import { comfortWords } from '../bedside/model/words.ts';
import { ComfortFields } from '../bedside/shared/comfort-fields.tsx';
import { Responses } from '../bedside/shared/responses.tsx';
import { Card } from './card.tsx';
import type { Observing } from './observe-context.ts';
import { NOBODY_TOLD, type ToldDraft, ToldFields, toldMissing, toldOf } from './told-fields.tsx';

type SymptomsDraft = ComfortDraft & ToldDraft & { done: readonly string[]; note: string };

/** How the patient is between exchanges, with what the ward does about it. */
export const SymptomsCard = ({ observing }: { observing: Observing }) => {
  const { patient, keepAll, at } = observing;
  const { state, policy, clock, patientId } = patient;
  const [draft, setDraft, forget] = useDraft<SymptomsDraft>(`symptoms:${patientId}`, {
    ...NO_COMFORT,
    ...NOBODY_TOLD,
    done: [],
    note: '',
  });
  const change = (part: Partial<SymptomsDraft>) => setDraft({ ...draft, ...part });
  const { comfort, problem } = readComfort(draft);
  const findings = findingsOfComfort(comfort, policy.settings);
  // Who was told is asked for, and kept, only of something found.
  const toldDraft = findings.length > 0 ? draft : NOBODY_TOLD;
  const last = state.comforts[0];
  const nothing = draft.felt.length === 0 && comfort.pain === null && draft.note.trim() === '';
  return (
    <Card
      observing={observing}
      title="Symptoms"
      last={last && `${comfortWords(last.comfort)}, ${clock(last.at)}`}
      action="Keep the symptoms"
      missing={problem !== null ? 'pain is 0 to 10' : nothing ? 'what the patient feels' : toldMissing(toldDraft)}
      onKeep={async () => {
        const id = newId();
        const done = draft.done.length > 0 ? `Done: ${draft.done.join('; ')}.` : null;
        const note = [draft.note.trim() || null, done].filter((one) => one !== null).join(' ') || null;
        const told = toldOf(
          toldDraft,
          at(),
          comfortWords(comfort),
          findings[0] ? { finding: findings[0], cause: id } : null,
        );
        if (await keepAll([{ kind: 'symptoms', payload: { comfort, note }, id }, ...told])) forget();
      }}
    >
      <ComfortFields draft={draft} onChange={change} />
      <Responses findings={findings} policy={policy} done={draft.done} onDone={(done) => change({ done })} />
      {findings.length > 0 && <ToldFields draft={draft} onChange={change} />}
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={1000} />
    </Card>
  );
};
