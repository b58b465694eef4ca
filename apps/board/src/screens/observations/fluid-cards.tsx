import type { Balance, Payloads } from '@slackwater/domain';
import { otherFluidsMl, wholeBodyMl } from '@slackwater/domain/balance/balance';
import { removedWords } from '@slackwater/domain/balance/words';
import { formatMl } from '@slackwater/domain/words/numbers';
import { useDraft } from '../../drafts/use-draft.ts';
import { useMinute } from '../../live/now.ts';
import { Choice } from '../../ui/choice.tsx';
import { readDigits } from '../../ui/digits.ts';
import { Field } from '../../ui/field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { wardDayNow } from '../bedside/model/ward-day.ts';
import { Card } from './card.tsx';
import type { Observing } from './observe-context.ts';

type Route = Payloads['otherFluid']['route'];
type Direction = Payloads['otherFluid']['direction'];
type Way = `${Direction}/${Route}`;

const WAYS: readonly { value: Way; label: string }[] = [
  { value: 'out/urine', label: 'Urine' },
  { value: 'in/oral', label: 'Drunk' },
  { value: 'in/intravenous', label: 'Intravenous' },
  { value: 'out/otherDialysis', label: 'Other dialysis' },
  { value: 'out/other', label: 'Other loss' },
  { value: 'in/other', label: 'Other intake' },
];

const recordedWords = (ml: number | null): string => (ml === null ? 'not recorded' : formatMl(ml));

/** Both balances in one, where there are two to add. */
function togetherWords(wardDay: Balance): string {
  const ml = otherFluidsMl(wardDay) === null ? null : wholeBodyMl(wardDay);
  return ml === null ? '' : `; with the dialysis: ${removedWords(ml)}`;
}

/** Other fluids stand in the whole-body balance, beside the dialysis balance, at their own time. */
export const FluidCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const range = { least: 0, most: patient.policy.settings.urineMostMl, unit: 'mL' };
  const [draft, setDraft, forget] = useDraft(`fluid:${patient.patientId}`, {
    way: 'out/urine' as Way,
    typed: '',
    note: '',
  });
  const volumeMl = readDigits(draft.typed, range).value;
  const wardDay = wardDayNow(patient.state, patient.policy, useMinute());
  return (
    <Card
      observing={observing}
      title="Other fluids"
      last={`this ward day: in ${recordedWords(wardDay.otherInMl)}, out ${recordedWords(wardDay.otherOutMl)}${togetherWords(wardDay)}`}
      action={volumeMl === null ? 'Keep the volume' : `Keep ${formatMl(volumeMl)}`}
      missing={volumeMl === null ? 'the volume is missing' : null}
      onKeep={async () => {
        if (volumeMl === null) return;
        const [direction, route] = draft.way.split('/') as [Direction, Route];
        if (await keep('otherFluid', { direction, route, volumeMl, note: draft.note.trim() || null })) forget();
      }}
    >
      <Choice
        label="What"
        layout="apart"
        hideLabel
        value={draft.way}
        onChange={(way) => setDraft({ ...draft, way })}
        options={WAYS}
      />
      <NumberField label="Volume" typed={draft.typed} onTyped={(typed) => setDraft({ ...draft, typed })} {...range} />
      <Field label="In words" value={draft.note} onChange={(note) => setDraft({ ...draft, note })} maxLength={2000} />
    </Card>
  );
};

export const BowelsCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [draft, setDraft, forget] = useDraft(`bowels:${patient.patientId}`, {
    opened: null as 'yes' | 'no' | null,
    note: '',
  });
  return (
    <Card
      observing={observing}
      title="Bowels"
      action="Keep"
      missing={draft.opened === null ? 'opened or not?' : null}
      onKeep={async () => {
        if (draft.opened && (await keep('bowels', { opened: draft.opened === 'yes', note: draft.note.trim() || null })))
          forget();
      }}
    >
      <Choice
        label="Opened today"
        value={draft.opened}
        onChange={(opened) => setDraft({ ...draft, opened })}
        options={[
          { value: 'yes', label: 'Opened' },
          { value: 'no', label: 'Not opened' },
        ]}
      />
      <Field label="In words" value={draft.note} onChange={(note) => setDraft({ ...draft, note })} maxLength={2000} />
    </Card>
  );
};
